import { defineConfig } from "vitest/config";
import { LongestFirst } from "./tests/order.ts";

const everywhere = {
  setupFiles: ["tests/fixedSeeds.ts"],
  testTimeout: 120_000,
  hookTimeout: 120_000,
  pool: "forks" as const,
  maxWorkers: 2,
};

const tests = ["src/**/*.test.{ts,tsx}", "tests/**/*.test.ts"];
/** The folders that open no file, read no clock and keep nothing from one question to the next. */
const trade =
  "src/{maths,measurement,valves,circuits,bench,hum,timber,safety,production,listening,claims,dossier,calculations}/**/*.test.ts";

export default defineConfig({
  test: {
    globalSetup: ["tests/accuracyPage.ts", "tests/runFolder.ts"],
    sequence: { sequencer: LongestFirst },
    projects: [
      // Half the time of a short file would go into loading anew what the one before it had loaded.
      { test: { ...everywhere, name: "trade", include: [trade], isolate: false } },
      { test: { ...everywhere, name: "house", include: tests, exclude: [trade, "**/node_modules/**"] } },
    ],
  },
});
