import { defineConfig } from "vitest/config";

/** The tests that stand beside what is changed: few enough to run for every change that mutation testing makes. */
export default defineConfig({
  test: {
    include: [`src/${process.env.STILLGLOW_MUTATE ?? "safety"}/**/*.test.ts`],
    setupFiles: ["tests/fixedSeeds.ts"],
    testTimeout: 60_000,
  },
});
