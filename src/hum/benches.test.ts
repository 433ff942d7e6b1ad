import { appendFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type Judged, judgeDraw, tallyOf } from "./testing/judge.ts";
import { judgeRecordings } from "./testing/judgeRecordings.ts";
import type { ShareHeld } from "./testing/sharesHeld.ts";

/** STILLGLOW_DRAWS=200 STILLGLOW_SEED=5000 draws that many fresh benches from that seed on. */
const draws = Number(process.env["STILLGLOW_DRAWS"] ?? 0);
const firstSeed = Number(process.env["STILLGLOW_SEED"] ?? 1);
/** A file that takes a line a bench, so that a long run can be looked at while it goes. */
const diary = process.env["STILLGLOW_DIARY"];

function hold(what: string, judged: readonly Judged[]) {
  const tally = tallyOf(judged);
  const words = `${what}: ${JSON.stringify(tally, undefined, 1)}`;
  expect(tally.accused, words).toBe(0);
  expect(tally.decidable, words).toBeGreaterThan(0);
  // With few draws one miss is a larger share than the limit allows for.
  expect(tally.decidable - tally.right, words).toBeLessThanOrEqual(Math.max(1, 0.03 * tally.decidable));
  expect(tally.undecidable - tally.calledUndecided, words).toBeLessThanOrEqual(0.05 * tally.undecidable);
  recordAccuracy({
    area: "hum",
    what,
    source: "own benches drawn at random, truth known; seeds in src/hum/benches.test.ts",
    reached: `${tally.right} of ${tally.decidable} decidable right, ${tally.calledUndecided} of ${tally.undecidable} undecidable called so, ${tally.accused} innocent valves accused`,
    limit: "97 %, 95 %, none",
  });
}

/** Bounds of all shares of a bench hold or miss together, so that few benches say little. */
function holdShares(what: string, shares: readonly ShareHeld[]) {
  const held = shares.filter((share) => share.held).length / shares.length;
  const narrow = shares.filter(({ low, high }) => high - low < 0.9);
  const words = `${what}: ${(100 * held).toFixed(1)} % of ${shares.length}`;
  expect(held, words).toBeGreaterThan(draws >= 100 ? 0.93 : 0.85);
  recordAccuracy({
    area: "hum",
    what,
    source: "own benches drawn at random, truth known; bounds of a line's shares are not independent",
    reached: `${(100 * held).toFixed(1)} % of ${shares.length} hold the truth; ${((100 * narrow.filter((s) => s.held).length) / narrow.length).toFixed(1)} % of the ${narrow.length} narrower than 0.9`,
    limit: "93 % to 97 % over 200 benches by command",
  });
}

describe("benches drawn at random", () => {
  test("from line tables", { timeout: 3_600_000 }, () => {
    const judged = Array.from({ length: draws || 4 }, (_, i) => judgeDraw(firstSeed + i)).flat();
    hold("cause from line tables", judged);
    holdShares(
      "bounds on shares, from line tables",
      judged.flatMap(({ lines }) => lines.flat()),
    );
  });

  test("from WAV files of workshops drawn at random", { timeout: 7_200_000 }, () => {
    const benches = Array.from({ length: draws || 2 }, (_, i) => {
      const started = performance.now();
      const bench = judgeRecordings(firstSeed + 1000 + i);
      const outcomes = bench.judged.map(({ truth, outcome }) => `${truth.cause} ${outcome}`).join(", ");
      const seconds = ((performance.now() - started) / 1000).toFixed(1);
      if (diary) appendFileSync(diary, `${firstSeed + 1000 + i}: ${outcomes}; ${seconds} s\n`);
      return bench;
    });
    for (const line of benches.flatMap(({ trace }) => trace.lines)) {
      expect(line.causes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
      for (const { share, low, high } of line.causes) {
        expect(low).toBeLessThanOrEqual(share);
        expect(high).toBeGreaterThanOrEqual(share);
      }
    }
    hold(
      "cause from recordings",
      benches.flatMap(({ judged }) => judged),
    );
    holdShares(
      "bounds on shares, from recordings",
      benches.flatMap(({ judged }) => judged.flatMap(({ lines }) => lines.flat())),
    );
    expect(benches.reduce((sum, { strayLines }) => sum + strayLines, 0)).toBeLessThanOrEqual(0.01 * (draws || 2));
  });
});
