import { readFileSync } from "node:fs";

// Mutation testing of what judges: one small change to the code at a time, and some test must notice. Run by
// `node scripts/mutation.mjs [folder]`.
const folder = process.env.STILLGLOW_MUTATE ?? "safety";
const pass = process.env.STILLGLOW_MUTATE_PASS ?? "quick";
const isFirst = pass === "quick";
/** What the passes before did not notice, as `file:line:column-line:column`. */
const left = isFirst ? undefined : JSON.parse(readFileSync(`.stillglow/mutation/${folder}.left.json`, "utf8"));

export default {
  packageManager: "npm",
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  vitest: { configFile: "vitest.mutation.config.ts" },
  mutate: left ?? [`src/${folder}/**/*.ts`, `!src/${folder}/**/*.test.ts`, `!src/${folder}/testing/**`],
  // Words are held by tests of their own, in three languages; a changed one is no wrong judgement.
  mutator: { excludedMutations: ["StringLiteral"] },
  ignoreStatic: true,
  coverageAnalysis: "perTest",
  concurrency: Number(process.env.STILLGLOW_MUTATE_AT_ONCE ?? 2),
  timeoutMS: 20_000,
  reporters: ["json", "clear-text", "progress-append-only"],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
  jsonReporter: { fileName: `.stillglow/mutation/${folder}.${pass}.json` },
  // What was tried before stands while neither the changed place nor a test that runs it is another.
  incremental: true,
  incrementalFile: `.stillglow/mutation/${folder}.${pass}.before.json`,
  tempDirName: ".stillglow/mutation/room",
  ignorePatterns: ["/dist", "/.stillglow", "/docs/pictures", "/.git"],
  allowConsoleColors: false,
};
