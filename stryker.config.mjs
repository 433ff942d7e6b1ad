import { readFileSync } from "node:fs";

// Mutation testing of what judges: one small change to the code at a time, and some test must notice. Run by
// `node scripts/mutation.mjs [folder]`.
const folder = process.env.STILLGLOW_MUTATE ?? "safety";
const isLong = process.env.STILLGLOW_MUTATE_PASS === "long";
/** What the quick tests did not notice, as `file:line:column-line:column`. */
const left = isLong ? JSON.parse(readFileSync(`.stillglow/mutation/${folder}.left.json`, "utf8")) : undefined;

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
  jsonReporter: { fileName: `.stillglow/mutation/${folder}${isLong ? ".long" : ""}.json` },
  tempDirName: ".stillglow/mutation/room",
  ignorePatterns: ["/dist", "/.stillglow", "/docs/pictures", "/.git"],
  allowConsoleColors: false,
};
