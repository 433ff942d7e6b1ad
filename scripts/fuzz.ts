// node --import tsx scripts/fuzz.ts [--minutes N] [--seed WORD] [--only NAME] [--findings FILE] [--page]
// Tries every calculation and every reader with what grows from valid inputs; with --page the result goes into
// docs/reliability.md.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { fuzz } from "../tests/fuzz/fuzzing.ts";
import { calculationSources, readerSources } from "../tests/fuzz/seeds.ts";
import { reachedWith, writeSection } from "./reliabilityPage.ts";

const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "30" },
    seed: { type: "string", default: "1" },
    only: { type: "string" },
    /** Where what was found is written, with its input. */
    findings: { type: "string" },
    page: { type: "boolean", default: false },
  },
});
const room = mkdtempSync(join(tmpdir(), "stillglow-fuzz-"));
try {
  const { only } = values;
  const all = [...(await readerSources(room)), ...(await calculationSources())];
  const sources = all.filter(({ of }) => only === undefined || of.startsWith(only));
  let until_ms = Number.POSITIVE_INFINITY;
  const told = await fuzz({
    sources,
    seed: values.seed,
    cpu_ms: Number.POSITIVE_INFINITY,
    isEnough() {
      // The beginnings themselves are not counted.
      if (until_ms === Number.POSITIVE_INFINITY) until_ms = Date.now() + Number(values.minutes) * 60_000;
      return Date.now() > until_ms;
    },
    tell: (trials, findings) => process.stdout.write(`${trials} trials, ${findings} findings\n`),
  });
  for (const { of, words } of told.findings.slice(0, 40)) process.stdout.write(`${of}: ${words}\n`);
  const written = told.findings.map(({ trial, ...finding }) => ({
    ...finding,
    trial: trial.of === "reader" ? { ...trial, bytes: Buffer.from(trial.bytes).toString("base64") } : trial,
  }));
  if (values.findings !== undefined) writeFileSync(values.findings, JSON.stringify(written, null, 1));
  const { first, all: reached, of } = told.reached;
  const rows = [...told.tallies].map(
    ([name, { answered, refusedByShape, refusedInside, notFinite, refusals, longest_ms }]) =>
      `| ${name} | ${answered} | ${refusedByShape} | ${refusedInside} | ${notFinite} | ${refusals.size} | ${(longest_ms / 1000).toFixed(1)} |`,
  );
  process.stdout.write(
    `${told.trials} trials, ${told.findings.length} findings, ${Math.round(told.memory_MB)} MB, reached ${first} then ${reached} of ${of}\n${rows.join("\n")}\n`,
  );
  if (values.page) {
    writeSection(
      "Hostile input",
      `Valid inputs, changed in figures and in form, and changed on from whatever was answered or refused in a new way; files by their bytes and, past their wrapping, by what is in them. Each trial runs in a process of its own that may crash; more than ten seconds of the processor is a hang. Every answer must be finite and fit its schema, every refusal be one sentence of three parts that shows no code. By \`node --import tsx scripts/fuzz.ts --page\`.

${told.trials} trials, ${Math.round(told.cpu_ms / 1000)} s of the processor, seed ${values.seed}, ${reachedWith()}.

| | |
|---|---|
| crashes, hangs, figures that are none, answers that break their schema, unclear refusals | ${told.findings.length} |
| memory at the most | ${Math.round(told.memory_MB)} MB |
| source loaded, in characters | ${of} |
| of it run by the valid inputs and an empty one alone | ${((100 * first) / of).toFixed(1)} % |
| run after all trials | ${((100 * reached) / of).toFixed(1)} % |

"Refused inside": past the shape of the input, by the reading or computing itself. "Caught last": a figure of the answer was not finite, which is said only once all is computed. "Ways": refusals that differ in field or in what they allow.

| | answered | refused by shape | refused inside | of them caught last | ways | longest (s of processor) |
|---|---|---|---|---|---|---|
${rows.join("\n")}
`,
    );
  }
  process.exitCode = told.findings.length === 0 ? 0 : 1;
} finally {
  rmSync(room, { recursive: true, force: true });
}
