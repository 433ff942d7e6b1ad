import { expect, test } from "vitest";
import { temporaryFolder } from "../helpers.ts";
import { fuzz } from "./fuzzing.ts";
import { calculationSources, readerSources } from "./seeds.ts";

/** A sample; `node --import tsx scripts/fuzz.ts --minutes 30` goes on for as long as it is let. */
test("changed readings, files and questions are answered or refused in words: no crash, hang, figure that is none or trace", async () => {
  const sources = [...(await readerSources(temporaryFolder())), ...(await quickOnes())];
  const told = await fuzz({ sources, seed: "sample", cpu_ms: 1500 });
  expect(told.findings.map(({ of, words }) => `${of}: ${words}`)).toEqual([]);
  expect(told.trials).toBeGreaterThan(200);
  expect(told.memory_MB).toBeLessThan(1000);
  // A trial that never gets past the first refusal tries nothing.
  const all = [...told.tallies.values()];
  expect(all.filter(({ answered }) => answered > 0).length).toBeGreaterThan(0.6 * all.length);
  expect(all.reduce((sum, { refusedInside }) => sum + refusedInside, 0)).toBeGreaterThan(40);
  expect(told.reached.all).toBeGreaterThan(1.02 * told.reached.first);
}, 120_000);

/** Those whose every answer costs next to nothing. */
async function quickOnes() {
  const quick =
    /^(measurement|safety|listening\.blind|timber\.(emc|move|finish)|production\.(cost|soak|lookback)|hum\.audible|valves\.verdict)/;
  return (await calculationSources()).filter(({ of }) => quick.test(of));
}
