import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type HoursTold, hoursTold } from "./testing/drawnHours.ts";

const draws = Number(process.env.STILLGLOW_DRAWS ?? 8);
const seed = Number(process.env.STILLGLOW_SEED ?? 5_117);

/** Shares of draws within a tenth, and held by the doubt; the fit that says it never comes there counts as said. */
function shares(name: string) {
  const told: HoursTold[] = [];
  for (let i = 0; told.length < draws; i++) {
    const one = hoursTold(name, seed, i);
    if (one) told.push(one);
  }
  const stated = told.filter(({ isHeld }) => isHeld !== undefined);
  return {
    near: told.filter(({ isNear }) => isNear).length / draws,
    held: stated.filter(({ isHeld }) => isHeld).length / Math.max(1, stated.length),
  };
}

// source: the draws: hidden factor 0.5 to 3, air as logged
test("three weighings tell the hours to the target within a tenth", () => {
  const { near } = shares("air as logged");
  expect(near, `seed ${seed}`).toBeGreaterThanOrEqual(0.9);
  recordAccuracy({
    area: "timber",
    what: `hours to target from three weighings within 10 %, ${draws} draws`,
    source: "simulation, hidden factor 0.5 to 3, seed as printed",
    reached: `${(100 * near).toFixed(0)} % of draws`,
    limit: "90 % of draws",
  });
});

// source: the draws: wood that comes to rest off the table as it is believed to, and by one percent at least
test("wood off the table by one percent lies within the doubt of the hours", () => {
  expect(shares("wood as believed").held, `seed ${seed}`).toBeGreaterThan(draws >= 500 ? 0.93 : 0.75);
  for (const name of ["wood 1 % off", "wood -1 % off"])
    expect(shares(name).held, `seed ${seed}`).toBeGreaterThan(draws >= 500 ? 0.9 : 0.7);
});
