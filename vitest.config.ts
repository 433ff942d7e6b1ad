import { defineConfig } from "vitest/config";
import { LongestFirst } from "./tests/order.ts";

export default defineConfig({
  test: {
    include: ["src/**/*.test.{ts,tsx}", "tests/**/*.test.ts"],
    setupFiles: ["tests/fixedSeeds.ts"],
    globalSetup: ["tests/accuracyPage.ts", "tests/runFolder.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: "forks",
    maxWorkers: 2,
    sequence: { sequencer: LongestFirst },
  },
});
