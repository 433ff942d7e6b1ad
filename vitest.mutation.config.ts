import { defineConfig } from "vitest/config";

/** The tests that hold what judges to its figures: few enough to run for every change that mutation testing makes. */
export default defineConfig({
  test: {
    include: ["src/{claims,measurement,safety}/**/*.test.ts", "src/workshop/safety/**/*.test.ts"],
    setupFiles: ["tests/fixedSeeds.ts"],
    testTimeout: 60_000,
  },
});
