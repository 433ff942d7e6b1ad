import { defineConfig } from "vitest/config";
import { LongestFirst } from "./tests/order.ts";

const everywhere = {
  setupFiles: ["tests/fixedSeeds.ts"],
  testTimeout: 120_000,
  hookTimeout: 120_000,
  pool: "forks" as const,
  // One more than there are processors, as half of the long files wait for sound, servers and kills; a fourth makes the
  // run longer, as all lose to each other what the processors have at hand.
  maxWorkers: 3,
};

const tests = ["src/**/*.test.{ts,tsx}", "tests/**/*.test.ts"];
/** These change what is the same for all in a process: the language in use, the clock. */
const apart = [
  "src/screens/languages/**/*.test.ts",
  "src/screens/common/trade.test.ts",
  "src/screens/morning/told.test.ts",
  "src/screens/timber/typed.test.ts",
  "src/instruments/logRun.test.ts",
];

export default defineConfig({
  test: {
    globalSetup: ["tests/accuracyPage.ts", "tests/runFolder.ts"],
    sequence: { sequencer: LongestFirst },
    projects: [
      // Half the time of a short file would go into loading anew what the one before it had loaded.
      {
        test: {
          ...everywhere,
          name: "house",
          include: tests,
          exclude: [...apart, "**/node_modules/**"],
          isolate: false,
        },
      },
      { test: { ...everywhere, name: "apart", include: apart } },
    ],
  },
});
