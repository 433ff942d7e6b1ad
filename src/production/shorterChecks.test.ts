import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { shorterChecks } from "./shorterChecks.ts";

const plate = { check: "plate", length: 48, step: 24, pieces: 120 };
const early = Array.from({ length: 30 }, (_, i) => ({ by: 6 + (i % 3) * 4, later_cents: 4000 }));

// source: by hand: 24 h at 20 cents an hour spare 4.80 a piece; nothing showed on the second day
test("a day that showed nothing is left out, and the saving is what the day costs", () => {
  const [found] = shorterChecks([{ ...plate, cents_per_step: 480, shown: early }]);
  expect(found).toMatchObject({ from: 48, to: 24, saving_cents: 480, missed: 0, shown: 30, state: "saves" });
  // What has not escaped may: Jeffreys' share of none in 120 times 40.
  expect(found!.low_cents).toBeLessThan(480);
  expect(found!.low_cents).toBeGreaterThan(300);
});

// source: by hand: leaving the second day out spares 0.10, and one fault of 40 in 120 pieces costs 0.33
test("a cheap hour is not worth a fault that gets away, and nothing is said where it can't be told", () => {
  const shown = [...early, { by: 40, later_cents: 4000 }];
  const [cheap] = shorterChecks([{ ...plate, cents_per_step: 10, shown }]);
  expect(cheap!.saving_cents).toBe(-23);
  expect(cheap!.state).not.toBe("saves");
  const [close] = shorterChecks([{ ...plate, cents_per_step: 60, shown }]);
  expect(close!.state).toBe("undecided");
});

// source: by hand: one reading instead of two would miss 40 faults of 50.00 in 2000 pieces, 1.00 a piece, and spare 0.20
test("readings are lengths like hours: as few as show what there is", () => {
  const shown = Array.from({ length: 200 }, (_, i) => ({ by: i < 160 ? 1 : 2, later_cents: 5000 }));
  const [found] = shorterChecks([{ check: "balance", length: 5, step: 1, cents_per_step: 20, pieces: 2000, shown }]);
  expect(found).toMatchObject({ from: 5, to: 2, missed: 0, saving_cents: 60, state: "saves" });
  expect(
    shorterChecks([{ check: "balance", length: 1, step: 1, cents_per_step: 20, pieces: 2000, shown: [] }]),
  ).toEqual([]);
});

test.each([
  [{ ...plate, cents_per_step: 1, shown: [], length: 0 }, "lengths[0].length"],
  [{ ...plate, cents_per_step: 1, shown: [], step: 49 }, "lengths[0].step"],
  [{ ...plate, cents_per_step: -1, shown: [] }, "lengths[0].cents_per_step"],
  [{ ...plate, cents_per_step: 1, shown: early, pieces: 12 }, "lengths[0].pieces"],
  [{ ...plate, cents_per_step: 1, shown: [{ by: 60, later_cents: 1 }] }, "lengths[0].shown[0].by"],
])("%j is refused at %s, with the check", (check, path) => {
  expect(() => shorterChecks([check])).toThrow(expect.objectContaining({ path }));
});

// property: of shops where the second day really pays for nothing or for little, few are told to shorten wrongly, and
// the interval holds the true saving
test("intervals hold the true saving, and no saving is claimed that is none", () => {
  const shops = Number(process.env.STILLGLOW_DRAWS ?? 200);
  const chance = randomStream(process.env.STILLGLOW_SEED ?? "shorter");
  let [held, claimed, wrong] = [0, 0, 0];
  for (let i = 0; i < shops; i++) {
    const draw = chance.fork(i);
    const late = [0.002, 0.01, 0.03][i % 3]!;
    const cents_per_step = 60;
    // In every other shop what shows late is twice as dear as what shows early.
    const dearer = 1 + (i % 2);
    const truth = cents_per_step - late * 4000 * dearer * Math.exp(0.18);
    const shown = Array.from({ length: 150 }, () => draw.uniform()).flatMap((u) =>
      u < 0.2
        ? [{ by: 10, later_cents: 4000 * Math.exp(draw.normal(0, 0.6)) }]
        : u < 0.2 + late
          ? [{ by: 40, later_cents: 4000 * dearer * Math.exp(draw.normal(0, 0.6)) }]
          : [],
    );
    const [found] = shorterChecks([{ ...plate, cents_per_step, pieces: 150, shown }], i);
    if (found!.low_cents <= truth && truth <= found!.high_cents) held++;
    if (found!.state === "saves") claimed++;
    if (found!.state === "saves" && truth < 0) wrong++;
  }
  expect(held / shops).toBeGreaterThan(0.89);
  expect(wrong / shops).toBeLessThan(0.03);
  recordAccuracy({
    area: "production",
    what: "shorter checks: intervals hold the true saving; savings claimed; claimed where there is none",
    source: `own draws, ${shops} shops of 150 pieces, late faults as dear as early ones or twice`,
    reached: `${held} of ${shops}; ${claimed}; ${wrong}`,
    limit: "89 %; wrong under 3 %",
  });
});
