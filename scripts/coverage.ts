// node --import tsx scripts/coverage.ts [--draws N] [--seed N | --more] [--trace FILE] [--dry] [WORD …]
// node --import tsx scripts/coverage.ts --from FILE [WORD …]
// How often the intervals that bench calculations state hold the truth; writes docs/coverage.md. Long runs can be made in
// chunks: with --more each goes on from the seed where the page stopped and adds to its counts; or each with --dry and
// --trace into one file, from other first seeds, then the page --from that file.
import { execFileSync } from "node:child_process";
import { appendFileSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { allDraws, longDraws } from "../src/bench/testing/intervals/all.ts";
import { addedTo, type Counted, countStated, verdictOn } from "../src/bench/testing/intervals/count.ts";
import type { Draws, Stated } from "../src/bench/testing/intervals/draw.ts";

const { values, positionals } = parseArgs({
  options: {
    draws: { type: "string", default: "2000" },
    seed: { type: "string", default: "1" },
    more: { type: "boolean", default: false },
    trace: { type: "string" },
    from: { type: "string" },
    dry: { type: "boolean", default: false },
  },
  allowPositionals: true,
});
const draws = Number(values.draws);
const firstSeed = Number(values.seed);
const page = join(import.meta.dirname, "..", "docs", "coverage.md");

/** One stated figure as a trace keeps it. */
interface Traced extends Stated {
  readonly family: string;
  readonly seed: string;
  readonly revision: string;
}

/** The last that changed what is drawn and judged here. */
const revision = execFileSync("git", ["log", "-1", "--abbrev=12", "--format=%h", "--", "src/bench", "src/maths"], {
  encoding: "utf8",
}).trim();
function readTrace(path: string): Traced[] {
  const lines = readFileSync(path, "utf8").trim().split("\n");
  return lines.map((line) => JSON.parse(line) as Traced);
}

function drawAll({ of, draw }: Draws, first: number): Traced[] {
  return Array.from({ length: draws }, (_, i) => {
    const seed = `${of} ${first + i}`;
    const traced = draw(seed).map((one): Traced => ({ family: of, seed, revision, ...one }));
    if (values.trace) appendFileSync(values.trace, traced.map((one) => `${JSON.stringify(one)}\n`).join(""));
    return traced;
  }).flat();
}

function rowOf(row: Counted): string {
  const { low, high } = row;
  const pct = (share: number) => (100 * share).toFixed(1);
  return `| ${row.what} | ${row.held} of ${row.count} | ${pct(row.held / row.count)} % | ${pct(low)} to ${pct(high)} % | ${verdictOn(row)} |`;
}

/** What the page says of one family. */
interface Section {
  readonly draws: number;
  readonly firstSeed: number;
  readonly revisions: readonly string[];
  readonly rows: readonly Pick<Counted, "what" | "held" | "count">[];
}

function sections(): Map<string, string> {
  const texts = (existsSync(page) ? readFileSync(page, "utf8") : "").split(/^(?=## )/m);
  return new Map(
    texts
      .filter((text) => text.startsWith("## "))
      .map((text) => [text.slice(3, text.indexOf("\n")), text.trimEnd()] as const),
  );
}

function sectionOf(of: string): Section | undefined {
  const text = sections().get(of) ?? "";
  const drawn = /^(\d+) draws from seed (\d+), .*, on revision (.*)\.$/m.exec(text);
  if (!drawn) return undefined;
  const rows = [...text.matchAll(/^\| (.+?) \| (\d+) of (\d+) \|/gm)].map(([, what, held, count]) => ({
    what: what!,
    held: Number(held),
    count: Number(count),
  }));
  return { draws: Number(drawn[1]), firstSeed: Number(drawn[2]), revisions: drawn[3]!.split(", "), rows };
}

/** Puts this family's section into the page, in the place of an earlier one or, where that is given, added to it. */
function write({ of, drawn }: Draws, traced: readonly Traced[], counted: readonly Counted[], before?: Section): void {
  const date = new Date().toISOString().slice(0, 10);
  const seeds = [...new Set(traced.map(({ seed }) => seed))];
  const revisions = [...new Set([...(before?.revisions ?? []), ...traced.map((one) => one.revision)])].join(", ");
  const first = before?.firstSeed ?? seeds[0]!.slice(of.length + 1);
  const section = [
    `## ${of}`,
    "",
    `Drawn: ${drawn}.`,
    "",
    `${seeds.length + (before?.draws ?? 0)} draws from seed ${first}, ${date}, on revision ${revisions}.`,
    "",
    "| figure | holds the truth | share | 95 % interval of that share | 93 to 97 % |",
    "|---|---|---|---|---|",
    ...counted.map(rowOf),
    "",
  ].join("\n");
  const all = sections().set(of, section.trimEnd());
  const names = [...all.keys()].sort();
  writeFileSync(page, `${[head, ...names.map((name) => all.get(name))].join("\n\n")}\n`);
}

const head = `# How often stated intervals hold the truth

Every bench figure carries a doubt: the half-width of an interval that is said to hold the truth 95 times in 100. Here
that is counted on fresh benches whose truth is known, drawn with the tests' own synthesiser. The suite draws a few of
them each time; this page is written by

    node --import tsx scripts/coverage.ts --draws 2000

and is brought up to date for one calculation by naming it, as in \`scripts/coverage.ts noise\`; with \`--more\` fresh draws
are added to those that stand here. The last column says whether the share lies in 93 to 97 %; a share just outside whose
own interval reaches in is said so.`.trim();

// A name in full asks for that one alone.
const every = [...allDraws, ...longDraws];
const isAsked = (of: string) =>
  positionals.length === 0 ||
  positionals.some((word) => (every.some((one) => one.of === word) ? of === word : of.includes(word)));
const asked = every.filter(({ of }) => isAsked(of));
const kept = values.from === undefined ? undefined : readTrace(values.from);

for (const family of asked) {
  const before = values.more ? sectionOf(family.of) : undefined;
  const first = before ? before.firstSeed + before.draws : firstSeed;
  const traced = kept ? kept.filter((one) => one.family === family.of) : drawAll(family, first);
  if (traced.length === 0) continue;
  const counted = addedTo(before?.rows ?? [], countStated(traced));
  for (const row of counted) console.log(rowOf(row));
  if (!values.dry) write(family, traced, counted, before);
}
