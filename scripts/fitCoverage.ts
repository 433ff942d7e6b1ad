// node --import tsx scripts/fitCoverage.ts --trace FILE [--draws N] [--from N] [--points 3,10,30] [--kinds triode,pentode]
// node --import tsx scripts/fitCoverage.ts --page FILE
// How often the intervals that valves.fit states hold the truth. The first draws valves and appends what was stated of each
// to FILE, so that long runs can be made in chunks (--from: number of the first draw); the second writes
// docs/fitCoverage.md from it.
import { execFileSync } from "node:child_process";
import { appendFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { type Cell, type StatedOfValve, stateValve, type Tally, tally } from "../src/valves/fit/testing/countHeld.ts";

const { values } = parseArgs({
  options: {
    trace: { type: "string" },
    page: { type: "string" },
    draws: { type: "string", default: "100" },
    from: { type: "string", default: "0" },
    points: { type: "string", default: "3,10,30" },
    kinds: { type: "string", default: "triode,pentode" },
    laws: { type: "string", default: "ours,another" },
    knows: { type: "string", default: "type,none" },
  },
});
const seed = "counted";

interface Traced extends StatedOfValve {
  readonly cell: Cell;
  readonly draw: number;
  readonly revision: string;
}

const head = `# How often a fit's intervals hold the truth

\`valves.fit\` states a doubt beside every figure (plate and screen current, gm, rp, mu at an asked point) and every
parameter: the half-width of an interval that is said to hold the truth 95 times in 100. Here that is counted on drawn
valves whose truth is known (\`src/valves/fit/testing/\`): of the law that is fitted, with a smooth surface by which they
miss it, or of other published laws; read at a few points with scatter; fitted with their type or without. Written by

    node --import tsx scripts/fitCoverage.ts --trace FILE --draws 100
    node --import tsx scripts/fitCoverage.ts --page FILE

The figures of one valve go together, so that the ± (two deviations) counts valves as draws. The last column says whether
the share lies in 93 to 97 %; a share outside whose own interval reaches in is said so. A row stands for the revision it
was counted on.
`;

const page = join(import.meta.dirname, "..", "docs", "fitCoverage.md");

if (values.trace !== undefined) drawInto(values.trace);
if (values.page !== undefined) writePage(readTrace(values.page));

function readTrace(path: string): Traced[] {
  const lines = readFileSync(path, "utf8").trim().split("\n");
  // A valve drawn twice is the same valve.
  const valves = new Map(lines.map((line) => JSON.parse(line) as Traced).map((v) => [nameOf(v.cell) + v.draw, v]));
  return [...valves.values()];
}

function nameOf({ kind, law, knows, points }: Cell): string {
  const belief = knows === "type" ? "its type" : "no type";
  return `| ${kind} | ${law === "ours" ? "our law" : "another"} | ${belief} | ${points} |`;
}

function told(of: Tally): string {
  if (of.said === 0) return " | | |";
  const share = of.held / of.said;
  // All alike is no certainty: at least the chance of as many figures each by itself.
  const half = 1.96 * Math.max(of.deviation, Math.sqrt((0.95 * 0.05) / of.said));
  const pct = (value: number) => (100 * value).toFixed(1);
  const inside = share >= 0.93 && share <= 0.97;
  const excluded = share + half < 0.93 ? "no, too narrow" : "no, too wide";
  const verdict = inside ? "yes" : share + half < 0.93 || share - half > 0.97 ? excluded : "not told apart by so few";
  return ` ${of.held} of ${of.said} | ${pct(share)} ± ${pct(half)} % | ${verdict} |`;
}

function writePage(valves: readonly Traced[]): void {
  const cells = [...new Set(valves.map(({ cell }) => nameOf(cell)))];
  const table = (of: "figures" | "parameters") => [
    "| kind | law | known | points | valves | held their truth | share | 93 to 97 % | revision |",
    "|---|---|---|---|---|---|---|---|---|",
    ...cells.flatMap((cell) => {
      const own = valves.filter((v) => nameOf(v.cell) === cell);
      const counted = tally(own, of);
      const revisions = [...new Set(own.map(({ revision }) => revision))].join(", ");
      return counted.said === 0 ? [] : [`${cell} ${own.length} |${told(counted)} ${revisions} |`];
    }),
  ];
  const date = new Date().toISOString().slice(0, 10);
  writeFileSync(
    page,
    `${[head, `${valves.length} valves, ${date}.`, "", "## Figures at asked points", "", ...table("figures"), "", "## Parameters", "", ...table("parameters")].join("\n")}\n`,
  );
}

function drawInto(trace: string): void {
  const revision = execFileSync("git", ["rev-parse", "--short=12", "HEAD"], { encoding: "utf8" }).trim();
  const first = Number(values.from);
  for (const kind of values.kinds.split(",") as Cell["kind"][])
    for (const points of values.points.split(",").map(Number))
      for (const law of values.laws.split(",") as Cell["law"][])
        for (const knows of values.knows.split(",") as Cell["knows"][]) {
          const cell: Cell = { kind, law, knows, points };
          const valves: StatedOfValve[] = [];
          for (let draw = first; draw < first + Number(values.draws); draw++) {
            const valve = stateValve(cell, draw, seed);
            valves.push(valve);
            appendFileSync(trace, `${JSON.stringify({ cell, draw, revision, ...valve } satisfies Traced)}\n`);
          }
          console.log(`${nameOf(cell)}${told(tally(valves, "figures"))}${told(tally(valves, "parameters"))}`);
        }
}
