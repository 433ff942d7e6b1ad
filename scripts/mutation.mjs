// node scripts/mutation.mjs [safety|measurement|claims] [--pass quick|elsewhere|long|none] [--at-once N] [--anew]
// Changes the code of a folder in one small place at a time and sees whether a test notices; writes the score and the
// survivors into docs/reliability.md. Tests in other folders, and then those that take long (properties.test.ts), try
// what the ones before did not notice. --pass takes one pass alone and the others from their last run; with "none", all:
// what is known is written down again. A place is tried again when it or a test that runs it has changed; --anew tries all.
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { register } from "tsx/esm/api";

register();
const { reachedWith, writeSection } = await import("./reliabilityPage.ts");
const root = join(import.meta.dirname, "..");
const folders = ["claims", "measurement", "safety"];
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    pass: { type: "string" },
    "at-once": { type: "string", default: "2" },
    anew: { type: "boolean", default: false },
  },
});
const asked = positionals[0] ?? "safety";
if (!folders.includes(asked)) {
  process.stderr.write(`mutation: ${asked}; one of ${folders.join(", ")}; name one of these\n`);
  process.exit(2);
}

const kept = (name) => join(root, ".stillglow", "mutation", `${asked}.${name}.json`);
const revision = reachedWith();
const isMissed = ({ status }) => status === "Survived" || status === "NoCoverage";
// Reports count columns from 1, what is asked for from 0.
const places = ({ file, location: { start, end } }) =>
  `${file}:${start.line}:${start.column - 1}-${end.line}:${end.column - 1}`;
const nameOf = (mutant) => `${places(mutant)} ${mutant.mutatorName} ${mutant.replacement}`;
const hasLong = readdirSync(join(root, "src", asked), { recursive: true }).some((file) =>
  file.endsWith("properties.test.ts"),
);
const passes = [
  "quick",
  ...(asked in read("mutation.elsewhere.json") ? ["elsewhere"] : []),
  ...(hasLong ? ["long"] : []),
];

let mutants = [];
for (const pass of passes) {
  if (values.pass === undefined || values.pass === pass) {
    writeFileSync(kept("left"), JSON.stringify([...new Set(mutants.filter(isMissed).map(places))]));
    run(pass);
  }
  if (pass === "quick") mutants = mutantsIn(kept(pass));
  else if (existsSync(kept(pass))) mutants = noticedAlsoBy(mutantsIn(kept(pass)));
}
const count = (...states) => mutants.filter(({ status }) => states.includes(status)).length;
const noticed = count("Killed", "Timeout");
const tried = noticed + count("Survived", "NoCoverage");
const score_pct = tried === 0 ? 0 : (100 * noticed) / tried;
const survivors = mutants.filter(isMissed);
const explained = read("mutation.explained.json");
const reasonOf = ({ file, was, replacement }) =>
  explained.find((one) => one.file === file && one.was === was && one.to === replacement)?.because;
const unexplained = survivors.filter((one) => reasonOf(one) === undefined);

writeSection(
  `Mutation of ${asked}`,
  `One small change at a time to \`src/${asked}/\` (words apart), and the tests of what judges must notice. By \`node scripts/mutation.mjs ${asked}\`.

${revision}: ${noticed} of ${tried} changes noticed, ${score_pct.toFixed(1)} %; ${survivors.length} not noticed, ${unexplained.length} of them not explained.

${survivors.length === 0 ? "" : `| where | was | became | why no test can or need notice |\n|---|---|---|---|\n${survivors.map(rowOf).join("\n")}\n`}`,
);
process.stdout.write(`${asked}: ${score_pct.toFixed(1)} %, ${survivors.length} not noticed\n`);

function read(name) {
  return JSON.parse(readFileSync(join(import.meta.dirname, name), "utf8"));
}

function run(pass) {
  if (values.anew) rmSync(kept(`${pass}.before`), { force: true });
  const { status } = spawnSync(join(root, "node_modules", ".bin", "stryker"), ["run"], {
    cwd: root,
    stdio: "inherit",
    env: {
      ...process.env,
      STILLGLOW_MUTATE: asked,
      STILLGLOW_MUTATE_PASS: pass,
      STILLGLOW_MUTATE_AT_ONCE: values["at-once"],
    },
  });
  if (status !== 0 || !existsSync(kept(pass))) process.exit(status ?? 1);
}

function noticedAlsoBy(later) {
  const noticed = new Set(later.filter(({ status }) => status === "Killed" || status === "Timeout").map(nameOf));
  return mutants.map((one) => (isMissed(one) && noticed.has(nameOf(one)) ? { ...one, status: "Killed" } : one));
}

function mutantsIn(file) {
  return Object.entries(JSON.parse(readFileSync(file, "utf8")).files).flatMap(([of, { source, mutants: all }]) =>
    all.map((mutant) => ({ ...mutant, file: of, was: textAt(source, mutant.location) })),
  );
}

function rowOf(one) {
  const cell = (text) =>
    `\`${String(text).replaceAll(/\s+/g, " ").replaceAll("|", "\\|").replaceAll("`", "'").slice(0, 70)}\``;
  const where = `${one.file.replace(/^src\//, "")}:${one.location.start.line}`;
  return `| ${where} | ${cell(one.was)} | ${cell(one.replacement ?? "")} | ${reasonOf(one) ?? (one.status === "NoCoverage" ? "no test runs it" : "")} |`;
}

function textAt(source, { start, end }) {
  const lines = source.split("\n").slice(start.line - 1, end.line);
  lines[lines.length - 1] = lines.at(-1).slice(0, end.column - 1);
  lines[0] = lines[0].slice(start.column - 1);
  return lines.join("\n");
}
