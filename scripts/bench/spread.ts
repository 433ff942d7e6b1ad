import { readNetlist, spread } from "../../src/circuits/index.ts";
import ebb from "../../src/demo/netlists/ebb.json" with { type: "json" };
import { randomStream } from "../../src/maths/random.ts";
import { catalogueModel } from "../../src/valves/index.ts";
import { pythonAnswer, type Row } from "./row.ts";

const samples = 10_000;

/** All test points' windows of Ebb over 10,000 drawn units, beside numpy solving all units at once; processor time of both. */
export function rows(): Row[] {
  const netlist = readNetlist(ebb);
  const ask = () => spread(netlist, { samples }, randomStream(1));
  const first_ms = processor_ms(ask);
  for (let i = 0; i < 5; i++) ask();
  const ours_ms = Array.from({ length: 15 }, () => processor_ms(ask)).sort((a, b) => a - b)[7]!;
  const models = Object.fromEntries(
    netlist.parts.flatMap((part) => (part.kind === "triode" ? [[part.type!, catalogueModel(part.type!)!]] : [])),
  );
  const reference = pythonAnswer<{ ms: number; windows: Record<string, [number, number, number]> }>("spread.py", {
    netlist,
    models,
    samples,
    seed: 1,
  });
  return [
    {
      what: `spread of Ebb, ${samples} units, processor time`,
      ours_ms,
      reference: "numpy.linalg.solve over all units on one thread",
      reference_ms: reference?.ms,
      ...(reference
        ? { seen: `${agreement(ask(), reference.windows)}; the first time ${first_ms.toFixed(0)} ms` }
        : {}),
    },
  ];
}

function processor_ms(run: () => void): number {
  const begun = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e3;
}

function agreement(answer: ReturnType<typeof spread>, windows: Record<string, [number, number, number]>): string {
  if (answer.state !== "solved") throw new Error(answer.reason);
  const names = Object.keys(answer.points);
  const apart = names.flatMap((name) => {
    const { low_V, median_V, high_V, doubt } = answer.points[name]!;
    const [low, median, high] = windows[name]!;
    return [
      [low_V - low, doubt.low_V],
      [median_V - median, doubt.median_V],
      [high_V - high, doubt.high_V],
    ].map(([difference, allowed]) => Math.abs(difference!) / (Math.SQRT2 * allowed! + 1e-9));
  });
  const within = apart.filter((share) => share <= 1).length;
  return `${within} of ${apart.length} window edges agree within both doubts, the worst by ${Math.max(...apart).toFixed(1)} of them`;
}
