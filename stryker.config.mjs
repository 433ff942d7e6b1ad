// Mutation testing of what judges: one small change to the code at a time, and some test must notice. Run by
// `node scripts/mutation.mjs [folder]`.
const folder = process.env.STILLGLOW_MUTATE ?? "safety";

export default {
  packageManager: "npm",
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  vitest: { configFile: "vitest.mutation.config.ts" },
  mutate: [`src/${folder}/**/*.ts`, `!src/${folder}/**/*.test.ts`, `!src/${folder}/testing/**`],
  // Words are held by tests of their own, in three languages; a changed one is no wrong judgement.
  mutator: { excludedMutations: ["StringLiteral"] },
  ignoreStatic: true,
  coverageAnalysis: "perTest",
  concurrency: Number(process.env.STILLGLOW_MUTATE_AT_ONCE ?? 2),
  timeoutMS: 20_000,
  reporters: ["json", "clear-text"],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
  jsonReporter: { fileName: `.stillglow/mutation/${folder}.json` },
  tempDirName: ".stillglow/mutation/room",
  ignorePatterns: ["/dist", "/.stillglow", "/docs/pictures", "/.git"],
  allowConsoleColors: false,
};
