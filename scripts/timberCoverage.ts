// node --import tsx scripts/timberCoverage.ts --trace FILE [--draws N] [--from N] [--of pieces|hours] [--kind NUMBER]
// node --import tsx scripts/timberCoverage.ts --page FILE
// How often the intervals that timber.piece and timber.dry state hold the truth. The first draws pieces and appends what
// held to FILE, so that long runs can be made in chunks (--from: number of the first draw); the second writes
// docs/timberCoverage.md from it.
import { execFileSync } from "node:child_process";
import { appendFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { asked, type Held, heldOf, kinds } from "../src/timber/testing/countHeld.ts";
import { type HoursTold, hoursTold, offs } from "../src/timber/testing/drawnHours.ts";

const { values } = parseArgs({
  options: {
    trace: { type: "string" },
    page: { type: "string" },
    draws: { type: "string", default: "100" },
    from: { type: "string", default: "0" },
    of: { type: "string", default: "pieces" },
    kind: { type: "string" },
  },
});
const seed = "counted";

interface Traced {
  readonly of: "piece" | "hours";
  readonly name: string;
  readonly draw: number;
  readonly held?: Held;
  readonly told?: HoursTold;
  readonly revision: string;
}

if (values.trace !== undefined) drawInto(values.trace);
if (values.page !== undefined) writePage(readTrace(values.page));

function drawInto(path: string): void {
  const revision = execFileSync("git", ["rev-parse", "--short=12", "HEAD"], { encoding: "utf8" }).trim();
  const add = (one: Omit<Traced, "revision">) => appendFileSync(path, `${JSON.stringify({ ...one, revision })}\n`);
  const first = Number(values.from);
  for (let draw = first; draw < first + Number(values.draws); draw++) {
    if (values.of === "hours") {
      for (const name of Object.keys(offs)) {
        const told = hoursTold(name, seed, draw);
        if (told) add({ of: "hours", name, draw, told });
      }
      continue;
    }
    for (const [i, kind] of kinds.entries()) {
      if (values.kind !== undefined && Number(values.kind) !== i) continue;
      add({ of: "piece", name: kind.name, draw, held: heldOf(kind, seed, draw) });
    }
  }
}

function readTrace(path: string): Traced[] {
  const lines = readFileSync(path, "utf8").trim().split("\n");
  // A piece drawn twice is the same piece.
  return [
    ...new Map(
      lines.map((line) => JSON.parse(line) as Traced).map((one) => [`${one.of} ${one.name} ${one.draw}`, one]),
    ),
  ].map(([, one]) => one);
}

/** A share with two standard errors, and whether it lies where it should. */
function shareWords(held: number, of: number, [low, high]: readonly [number, number]): string {
  const share = held / of;
  const reach = 2 * Math.sqrt((share * (1 - share)) / of);
  const verdict =
    share >= low && share <= high
      ? "yes"
      : share + reach >= low && share - reach <= high
        ? "no, but within its own doubt"
        : share < low
          ? "no, too narrow"
          : "no, too wide";
  return `${held} of ${of} | ${(100 * share).toFixed(1)} ± ${(100 * reach).toFixed(1)} % | ${verdict} |`;
}

function writePage(traced: readonly Traced[]): void {
  const pieces = kinds.flatMap(({ name }) => {
    const held = traced.flatMap((one) => (one.of === "piece" && one.name === name && one.held ? [one.held] : []));
    return asked.flatMap((what) => {
      const stated = held.flatMap((one) => one[what] ?? []);
      if (stated.length === 0 || (what === "target" && stated.length < held.length / 4)) return [];
      return [`| ${name} | ${what} | ${shareWords(stated.filter(Boolean).length, stated.length, [0.93, 0.97])}`];
    });
  });
  const hours = Object.keys(offs).flatMap((name) => {
    const told = traced.flatMap((one) => (one.of === "hours" && one.name === name && one.told ? [one.told] : []));
    if (told.length === 0) return [];
    const stated = told.flatMap(({ isHeld }) => isHeld ?? []);
    const near = told.filter(({ isNear }) => isNear).length;
    return [
      `| ${name} | ${((100 * near) / told.length).toFixed(1)} % | ${told.length - stated.length} | ${shareWords(stated.filter(Boolean).length, stated.length, [0.93, 1])}`,
    ];
  });
  const revisions = [...new Set(traced.map(({ revision }) => revision))].join(", ");
  writeFileSync(
    join(import.meta.dirname, "..", "docs", "timberCoverage.md"),
    `# How often timber's intervals hold the truth

\`timber.piece\` states ends of 95 % about moisture now and later, the factor on the diffusivity and the hours to a target;
\`timber.dry\` a doubt beside its hours. Here that is counted on drawn boards whose truth is known
(\`src/timber/testing/\`): shop air, a chamber whose air drifts, recovery; factor, wood, logger, start and balance off by
as much as they are believed to be. Written by

    node --import tsx scripts/timberCoverage.ts --trace FILE --draws 2000
    node --import tsx scripts/timberCoverage.ts --trace FILE --draws 2000 --of hours
    node --import tsx scripts/timberCoverage.ts --page FILE

The ± is two standard errors. ${new Date().toISOString().slice(0, 10)}, on revision ${revisions}.

## A piece by its weighings

| pieces | ends of | held their truth | share | 93 to 97 % |
|---|---|---|---|---|
${pieces.join("\n")}

Ends of the target are left out where fewer than a quarter of the pieces state any.

## Hours to the target from three weighings

Oven-dry mass known, a quarter to three quarters of the way weighed, balance to 0.1 g, a hidden factor of 0.5 to 3. With
the wood one percent off the table the doubt is to hold the truth, which it may do more often than 95 times in 100.

| wood | within a tenth | said never | held their truth | share | 93 % and more |
|---|---|---|---|---|---|
${hours.join("\n")}
`,
  );
}
