import { defineConfig } from "vitest/config";

const long = "**/properties.test.ts";

/**
 * The tests that stand beside what is changed: those that take long try only what the others did not notice, as
 * `scripts/mutation.mjs` does it. What is loaded is kept: a change is switched on within it.
 */
export default defineConfig({
  test: {
    include: [
      `src/${process.env.STILLGLOW_MUTATE ?? "safety"}/**/${process.env.STILLGLOW_MUTATE_PASS === "long" ? "properties" : "*"}.test.ts`,
    ],
    exclude: process.env.STILLGLOW_MUTATE_PASS === "long" ? [] : [long],
    isolate: false,
    setupFiles: ["tests/fixedSeeds.ts"],
    testTimeout: 60_000,
  },
});
