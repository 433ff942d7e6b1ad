import { readFileSync } from "node:fs";
import { defineConfig } from "vitest/config";

const long = "**/properties.test.ts";
const folder = process.env.STILLGLOW_MUTATE ?? "safety";
const pass = process.env.STILLGLOW_MUTATE_PASS ?? "quick";
/** Of each folder the tests in others that hold it to account. */
const elsewhere: Record<string, string[]> = JSON.parse(readFileSync("scripts/mutation.elsewhere.json", "utf8"));

/**
 * The tests that stand beside what is changed; those elsewhere, and then those that take long, try only what the ones
 * before did not notice, as `scripts/mutation.mjs` does it. What is loaded is kept: a change is switched on within it.
 */
export default defineConfig({
  test: {
    include:
      pass === "elsewhere" ? elsewhere[folder] : [`src/${folder}/**/${pass === "long" ? "properties" : "*"}.test.ts`],
    exclude: pass === "quick" ? [long] : [],
    isolate: false,
    setupFiles: ["tests/fixedSeeds.ts"],
    testTimeout: 60_000,
  },
});
