import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/timber.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { coefficientsOf } from "./coefficients.ts";
import { ringCup_mm } from "./cup.ts";
import { move } from "./move.ts";
import { species, speciesNamed } from "./species.ts";

const ct = { tangential_per_pct: 0.0025, radial_per_pct: 0.0013 };

// source: Wood Handbook ch. 13, text after eq. 13-2: 232 mm of fir from 8 to 11 % grows 1.7 mm
test("moves as the handbook's example", () => {
  const example = reference.movement.worked_examples[0]!.inputs;
  const { change_mm } = move({
    width_mm: example.width_mm!,
    ringAngle_deg: 0,
    from_pct: example.mc_from_percent,
    to_pct: example.mc_to_percent,
    tangential_per_pct: example.ct_per_percent_mc,
    radial_per_pct: 0.00112,
  });
  expect(change_mm.value).toBeCloseTo(1.7, 1);
});

// source: by hand, C = C_T·cos² + C_R·sin²: at 45° the mean of both, 0.0019
test("rings between flat and quarter take their share of both", () => {
  const at = (ringAngle_deg: number) =>
    move({ width_mm: 100, ringAngle_deg, from_pct: 10, to_pct: 8, ...ct }).change_mm;
  expect(at(0).value).toBeCloseTo(-0.5, 12);
  expect(at(45).value).toBeCloseTo(-0.38, 12);
  expect(at(90)).toEqual({ value: -0.26, low: -0.26, high: -0.26 });
});

// source: reference/timber.json, ring_cup_checks: exact polar map computed by another program
test.each(reference.cup_and_stress.ring_cup_checks)(
  "cups by $cup_mm_exact mm at $pith_distance_mm mm from the pith",
  (check) => {
    const c = { tangential_per_pct: check.s_tangential_percent / 3000, radial_per_pct: check.s_radial_percent / 3000 };
    const cup = ringCup_mm(c, check.width_mm, check.pith_distance_mm, check.mc_drop_percent);
    expect(Math.abs(cup - check.cup_mm_exact)).toBeLessThan(0.0006);
    recordAccuracy({
      area: "timber",
      what: `cup of a board ${check.width_mm} mm wide, ${check.pith_distance_mm} mm from the pith`,
      source: "exact polar map, computed apart",
      reached: `${Math.abs(cup - check.cup_mm_exact).toFixed(4)} mm`,
      limit: "0.0006 mm (printed to 0.001)",
    });
  },
);

// source: Wood Handbook tables 13-5 and 4-3 against each other; the formula between them is derived
test("both handbook tables agree within 1 percent for domestic single species", () => {
  const exceptions = ["Northern red oak", "White oak", "Shagbark hickory", "Sweet birch"];
  const domestic = species.filter(
    (one) => one.coefficient && one.shrinkage?.source === "Wood Handbook table 4-3" && !exceptions.includes(one.name),
  );
  expect(domestic.length).toBeGreaterThan(8);
  for (const one of domestic) {
    const [table, shrinkage] = coefficientsOf(one).bySource;
    expect(Math.abs(table!.tangential_per_pct / shrinkage!.tangential_per_pct - 1), one.name).toBeLessThan(0.012);
    expect(Math.abs(table!.radial_per_pct / shrinkage!.radial_per_pct - 1), one.name).toBeLessThan(0.012);
  }
});

test("species go by any case, alias, hyphen or accent; unknown ones are refused by name", () => {
  expect(speciesNamed("DOUSSIE").name).toBe("Doussié");
  expect(speciesNamed("hard maple").name).toBe("Sugar maple");
  expect(speciesNamed("yellow poplar").name).toBe("Yellow-poplar");
  expect(() => speciesNamed("balsawood")).toThrow(expect.objectContaining({ path: "species" }));
});

test("the range holds the figure, and widens where sources disagree", () => {
  const relative = (name: string) => {
    const { value, low, high } = move({
      species: name,
      width_mm: 100,
      ringAngle_deg: 0,
      from_pct: 10,
      to_pct: 8,
    }).change_mm;
    return (high - low) / Math.abs(value);
  };
  expect(relative("merbau")).toBeGreaterThan(1.5 * relative("white ash"));
  fc.assert(
    fc.property(
      fc.constantFrom(...species.map((one) => one.name)),
      fc.double({ min: 0, max: 90, noNaN: true }),
      fc.double({ min: 2, max: 25, noNaN: true }),
      fc.double({ min: 2, max: 25, noNaN: true }),
      (name, ringAngle_deg, from_pct, to_pct) => {
        const step = { species: name, width_mm: 200, pith_mm: 80, ringAngle_deg, from_pct, to_pct };
        const { change_mm, cup_mm } = move(step);
        for (const range of [change_mm, ...(cup_mm ? [cup_mm] : [])]) {
          expect(range.low).toBeLessThanOrEqual(range.value);
          expect(range.high).toBeGreaterThanOrEqual(range.value);
        }
        if (from_pct > to_pct) expect(change_mm.value).toBeLessThan(0);
      },
    ),
  );
});

test("without the pith's distance the cup is left out, and the notes say why", () => {
  const answer = move({ species: "white ash", width_mm: 100, ringAngle_deg: 0, from_pct: 10, to_pct: 8 });
  expect(answer).not.toHaveProperty("cup_mm");
  expect(answer.notes.join()).toMatch(/pith_mm/);
});
