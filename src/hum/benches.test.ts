import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { traceHum } from "./index.ts";
import { drawBench } from "./testing/drawBench.ts";
import { type Judged, judge, judgeDraw, tallyOf } from "./testing/judge.ts";
import { fullScale_Vpk, synthesise } from "./testing/synthesise.ts";

/** STILLGLOW_DRAWS=1000 STILLGLOW_SEED=5000 draws that many fresh benches from that seed on. */
const draws = Number(process.env["STILLGLOW_DRAWS"] ?? 0);
const firstSeed = Number(process.env["STILLGLOW_SEED"] ?? 1);

function judgeRecordings(seed: number): Judged[] {
  const random = randomStream(`bench ${seed}`);
  const bench = drawBench(random.fork("draw"));
  const mains = seed % 4 === 0;
  const duration_s = 3 + 3 * random.fork("length").uniform();
  const recordings = bench.settings.map(({ supply, valves }, i) => ({
    id: `r${i + 1}`,
    recording: synthesise(bench, i, random, { duration_s, rate_Hz: seed % 2 ? 48_000 : 44_100, mains }),
    fullScale_Vpk,
    channels: [...bench.channels, ...(mains ? ["mains"] : [])],
    supply,
    valves,
    input: "shorted",
  }));
  const { building_Hz, feeds } = bench;
  const trace = traceHum({ building_Hz, feeds, recordings }, randomStream("hum.trace"));
  for (const line of trace.lines) {
    expect(
      line.causes.reduce((sum, { share }) => sum + share, 0),
      `seed ${seed}`,
    ).toBeCloseTo(1, 9);
    for (const { share, low, high } of line.causes) {
      expect(low).toBeLessThanOrEqual(share);
      expect(high).toBeGreaterThanOrEqual(share);
    }
  }
  return bench.channels.map((channel) => {
    const truth = bench.truth[channel]!;
    const verdict = trace.verdict[channel]!;
    return { seed, channel, truth, verdict, outcome: judge(truth, verdict) };
  });
}

function hold(what: string, judged: readonly Judged[]) {
  const tally = tallyOf(judged);
  const words = `${what}: ${JSON.stringify(tally, undefined, 1)}`;
  expect(tally.accused, words).toBe(0);
  expect(tally.decidable, words).toBeGreaterThan(0);
  // With few draws one miss is a larger share than the limit allows for.
  expect(tally.decidable - tally.right, words).toBeLessThanOrEqual(Math.max(1, 0.05 * tally.decidable));
  expect(tally.calledUndecided, words).toBe(tally.undecidable);
  recordAccuracy({
    area: "hum",
    what,
    source: "own benches drawn at random, truth known; seeds in src/hum/benches.test.ts",
    reached: `${tally.right} of ${tally.decidable} decidable right, ${tally.calledUndecided} of ${tally.undecidable} undecidable called so, ${tally.accused} innocent valves accused`,
    limit: "95 %, all, none",
  });
}

describe("benches drawn at random", () => {
  test("from line tables", { timeout: 3_600_000 }, () => {
    const count = draws || 12;
    hold("cause from line tables", Array.from({ length: count }, (_, i) => judgeDraw(firstSeed + i)).flat());
  });

  test("from recordings", { timeout: 3_600_000 }, () => {
    const count = draws || 4;
    hold(
      "cause from recordings",
      Array.from({ length: count }, (_, i) => judgeRecordings(firstSeed + 1000 + i)).flat(),
    );
  });
});
