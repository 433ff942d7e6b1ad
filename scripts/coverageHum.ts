// node --import tsx scripts/coverageHum.ts --draws N [--seed N] [--causes one|several] [--spectra typical|any]
//   [--mishap gain|warm-up|lead] --trace FILE
// node --import tsx scripts/coverageHum.ts --from FILE
// Draws benches and workshops, makes their WAV files, traces them and counts what was said against the truth. Runs in
// chunks, each appending to one trace; --from writes the sections it holds draws of into docs/coverage-hum.md.
import { execFileSync } from "node:child_process";
import { appendFileSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { type Count, countLines, countVerdicts } from "../src/hum/testing/countJudged.ts";
import type { Make } from "../src/hum/testing/drawBench.ts";
import type { Lab } from "../src/hum/testing/drawLab.ts";
import type { Judged } from "../src/hum/testing/judge.ts";
import { judgeRecordings } from "../src/hum/testing/judgeRecordings.ts";

interface Traced {
  readonly seed: number;
  readonly make: Make;
  readonly revision: string;
  readonly lab: Lab;
  readonly judged: readonly Judged[];
}

const { values } = parseArgs({
  options: {
    draws: { type: "string", default: "10" },
    seed: { type: "string", default: "1" },
    causes: { type: "string", default: "one" },
    spectra: { type: "string", default: "any" },
    mishap: { type: "string" },
    trace: { type: "string" },
    from: { type: "string" },
  },
});

function draw(file: string): void {
  const revision = execFileSync("git", ["rev-parse", "--short=12", "HEAD"], { encoding: "utf8" }).trim();
  const { causes, spectra, mishap } = values;
  const make = { causes, spectra, ...(mishap && { mishap }) } as Make;
  for (let seed = Number(values.seed), last = seed + Number(values.draws); seed < last; seed++) {
    const { judged, lab } = judgeRecordings(seed, make);
    appendFileSync(file, `${JSON.stringify({ seed, make, revision, lab, judged } satisfies Traced)}\n`);
  }
}

/** @source E. B. Wilson, JASA 22 (1927), the score interval (remembered) */
function wilson({ right, of }: Count): readonly [number, number] {
  const z = 1.96;
  const share = right / of;
  const middle = (share + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2))) / (1 + z ** 2 / of);
  return [middle - half, middle + half];
}

const pct = (share: number) => `${(100 * share).toFixed(1)} %`;

function table(counts: readonly Count[], withInterval: boolean): string {
  const rows = counts.map((count) => {
    if (count.of === 0) return `| ${count.what} | none | | |`;
    const [low, high] = wilson(count);
    const interval = withInterval ? `${pct(low)} to ${pct(high)}` : "";
    return `| ${count.what} | ${count.right} of ${count.of} | ${pct(count.right / count.of)} | ${interval} |`;
  });
  return ["| what | count | share | 95 % interval |", "|---|---|---|---|", ...rows].join("\n");
}

const titles: Readonly<Record<string, string>> = {
  one: "One cause well over the others",
  several: "Two or three causes within 8 dB",
  gain: "A valve with less gain wherever one was exchanged",
  "warm-up": "A unit still warming while it was recorded",
  lead: "A lead laid otherwise at one opening",
};

/** What went otherwise than it should, to be repeated by its seed. */
function amiss(rows: readonly Traced[]): string[] {
  return rows.flatMap(({ judged, make }) =>
    judged
      .filter(({ outcome }) => ["wrong", "accused", "decided without contrast", "candidate lost"].includes(outcome))
      .map(
        ({ seed, channel, truth, outcome, verdict }) =>
          `- seed ${seed}, ${make.spectra} spectra, ${channel}: truly ${truth.cause} (${pct(truth.share)}), ${verdict.state === "decided" ? `named ${verdict.cause}` : outcome}`,
      ),
  );
}

function section(kind: string, rows: readonly Traced[]): string {
  const judged = rows.flatMap((row) => row.judged);
  const seeds = rows.map(({ seed }) => seed);
  const revisions = [...new Set(rows.map(({ revision }) => revision))].join(", ");
  const rates = [...new Set(rows.map(({ lab }) => lab.rate_Hz / 1000))].sort((a, b) => a - b).join(", ");
  const unsound = rows.filter(({ lab }) => lab.supply === "cut" || lab.supply === "sagging").length;
  const wandering = rows.filter(({ lab }) => lab.wandering !== "walk").length;
  const wrong = amiss(rows);
  return [
    `## ${titles[kind]}`,
    "",
    `${rows.length} benches with ${judged.length} channels, seeds from ${Math.min(...seeds)} to ${Math.max(...seeds)}, on revision ${revisions}. Sample rates ${rates} kHz; ${unsound} benches on a regenerated supply with cut peaks or a sag; mains that swings or is being put right in ${wandering}.`,
    "",
    table(countVerdicts(judged), true),
    "",
    // Where something else changed, no line has a true share to be held against.
    ...(kind === "one" || kind === "several"
      ? [
          "By line (the lines of a bench hold or miss together, so no interval is given):",
          "",
          table(countLines(judged), false),
          "",
        ]
      : []),
    ...(wrong.length > 0 ? ["Amiss:", "", ...wrong, ""] : []),
  ].join("\n");
}

const head = `# How often hum is laid at the right door

Benches are drawn at random with their truth known, recorded in workshops drawn at random (recorders of 8 to 192 kHz and
16 to 64 bits, untrue clocks, headroom of 3 to 33 dB, mains off its nominal that walks, swings or is being put right,
contacts that scatter by 1 to 6 %, stray tones, references recorded beside or not, supplies with cut peaks or a sag),
written to WAV files and traced from them. The suite draws a few of them; this page is written by

    node --import tsx scripts/coverageHum.ts --draws 200 --trace FILE
    node --import tsx scripts/coverageHum.ts --from FILE

A channel is decidable where no other source came and went as the true one did. Undecided is honest and no miss where
causes are mixed; what is named has to be right.`;

if (values.from) {
  const rows = readFileSync(values.from, "utf8")
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Traced);
  const page = join(import.meta.dirname, "..", "docs", "coverage-hum.md");
  const order = Object.values(titles);
  const sections = new Map(
    (existsSync(page) ? readFileSync(page, "utf8") : "")
      .split(/^(?=## )/m)
      .filter((text) => text.startsWith("## "))
      .map((text) => [text.slice(3, text.indexOf("\n")), text.trimEnd()]),
  );
  for (const kind of new Set(rows.map(({ make }) => make.mishap ?? make.causes))) {
    const of = rows.filter(({ make }) => (make.mishap ?? make.causes) === kind);
    sections.set(titles[kind]!, section(kind, of).trimEnd());
  }
  const texts = [...sections].toSorted(([a], [b]) => order.indexOf(a) - order.indexOf(b)).map(([, text]) => text);
  writeFileSync(page, `${[head, ...texts].join("\n\n")}\n`);
} else if (values.trace) draw(values.trace);
else throw new Error("Name a file with --trace to draw into, or with --from to write the page from.");
