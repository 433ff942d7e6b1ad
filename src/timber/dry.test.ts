import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/timber.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { type DryingQuestion, dry, type Stage } from "./dry.ts";

const { diffusion } = reference;
const D = 1e-10;
const l = 0.01;
const hoursAt = (fourier: number) => (fourier * l * l) / D / 3600;
const constant: DryingQuestion = {
  diffusivity: { kind: "constant", m2_per_s: D },
  thickness_mm: 20,
  start_pct: 12,
  stages: [{ hours: 1, temperature_C: 20, emc_pct: 5, faces: "both" }],
};

// source: J. Crank, The Mathematics of Diffusion, ch. 4, series solutions computed apart (reference/timber.json)
test("follows the series solutions, with and without surface resistance, both faces or one", () => {
  const fixed = diffusion.analytic_checks_fixed_surface.map((check) => ({ ...check, surface: {} }));
  const resisted = diffusion.analytic_checks_surface_resistance.map((check) => ({
    ...check,
    surface: { surface_m_per_s: (check.sl_over_d * D) / l },
  }));
  let worst = 0;
  for (const { fourier_number, fraction_of_change, surface } of [...fixed, ...resisted]) {
    for (const faces of ["both", "one"] as const) {
      const answer = dry({
        ...constant,
        thickness_mm: faces === "both" ? 20 : 10,
        stages: [{ ...constant.stages[0]!, ...surface, faces }],
        outputs_h: [hoursAt(fourier_number)],
      });
      worst = Math.max(worst, Math.abs(answer.mean_pct[0]! - (12 - 7 * fraction_of_change)));
    }
  }
  expect(worst).toBeLessThan(0.003);
  recordAccuracy({
    area: "timber",
    what: "mean moisture while drying, series solutions, 7 % of change",
    source: "Crank, The Mathematics of Diffusion, chapter 4",
    reached: `${worst.toFixed(4)} % MC`,
    limit: "0.003 % MC",
  });
});

// source: reference/timber.json, numeric_benchmark, printed to 0.01 with kelvin as °C + 273; and scipy 1.10 (Debian),
// 400 cells, BDF, with °C + 273.15: 9.3542, 8.2669, 6.8844 mean, 11.4785, 10.0674, 7.9460 core at 24, 48, 96 h
test("follows the benchmark with the diffusivity of red oak", () => {
  const answer = dry({
    diffusivity: { kind: "arrhenius", d0_m2_per_s: 19.2e-4, activation_K: 5280, moistureFactor: 1.15 },
    thickness_mm: 20,
    start_pct: 12,
    stages: [{ hours: 96, temperature_C: 45, emc_pct: 5, faces: "both" }],
    outputs_h: [6, 12, 24, 48, 96],
  });
  const published = Object.values(diffusion.numeric_benchmark.mean_mc_percent);
  const worst = Math.max(...published.map((mean, i) => Math.abs(answer.mean_pct[i]! - mean)));
  expect(worst).toBeLessThan(0.02);
  const second = [9.35416698, 8.26691762, 6.88436221, 11.47851311, 10.06736404, 7.94596152];
  const ours = [...answer.mean_pct.slice(2), ...answer.core_pct.slice(2)];
  expect(Math.max(...second.map((value, i) => Math.abs(value - ours[i]!)))).toBeLessThan(0.004);
  recordAccuracy({
    area: "timber",
    what: "mean moisture of a 20 mm board at 45 °C, 6 to 96 h",
    source: "finite-volume benchmark of reference/timber.json",
    reached: `${worst.toFixed(3)} % MC`,
    limit: "0.02 % MC",
  });
});

// source: series as above, half of the change at D·t/l² = 0.19673
test("comes to half of the change when it should, and goes on with the last stage until then", () => {
  const { hoursToTarget } = dry({ ...constant, target_pct: 8.5 });
  expect(Math.abs(hoursToTarget! / hoursAt(0.19673) - 1)).toBeLessThan(0.001);
  const long = dry({ ...constant, target_pct: 12 - 7 * 0.95 });
  expect(Math.abs(long.hoursToTarget! / hoursAt(1.12901) - 1)).toBeLessThan(0.001);
});

test("a target that is never reached is undecided, in words", () => {
  for (const target_pct of [5, 4.9, 4]) {
    const answer = dry({ ...constant, target_pct });
    expect(answer.state).toBe("undecided");
    expect(answer).not.toHaveProperty("hoursToTarget");
    expect(answer.reason).toMatch(/never comes to/);
  }
  const sealed = dry({ ...constant, target_pct: 8, stages: [{ ...constant.stages[0]!, surface_m_per_s: 0 }] });
  expect(sealed.reason).toMatch(/nothing pass/);
  const frozen = dry({ ...constant, target_pct: 8, diffusivity: { kind: "constant", m2_per_s: 1e-16 } });
  expect(frozen.reason).toMatch(/thousand years/);
  expect(dry({ ...constant, target_pct: 12 }).hoursToTarget).toBe(0);
});

test("answers for exactly the hours asked, in their order, the whole piece at its start moisture at hour 0", () => {
  const answer = dry({ ...constant, outputs_h: [30, 0, 10, 10] });
  expect(answer.hours).toEqual([30, 0, 10, 10]);
  expect([answer.mean_pct[1], answer.surface_pct[1], answer.core_pct[1]]).toEqual([12, 12, 12]);
  expect(answer.mean_pct[2]).toBe(answer.mean_pct[3]);
  expect(answer.mean_pct[0]).toBeLessThan(answer.mean_pct[2]!);
  expect(answer.profile[0]).toEqual({ z_mm: 0, moisture_pct: 5 });
});

// property: wood stays between the driest and the wettest that it was or saw; a stage cut in two is the same stage
test("moisture stays within what it was and saw, and stages may be cut", () => {
  const stage = fc.record({
    hours: fc.double({ min: 0.1, max: 80, noNaN: true }),
    temperature_C: fc.double({ min: 5, max: 90, noNaN: true }),
    emc_pct: fc.double({ min: 1, max: 20, noNaN: true }),
    faces: fc.constantFrom("both", "one"),
  }) as fc.Arbitrary<Stage>;
  fc.assert(
    fc.property(fc.array(stage, { minLength: 1, maxLength: 3 }), (stages) => {
      const question = { species: "white ash", thickness_mm: 22, start_pct: 11 };
      const total_h = stages.reduce((sum, { hours }) => sum + hours, 0);
      const outputs_h = [total_h / 3, total_h];
      const once = dry({ ...question, stages, outputs_h });
      const cut = dry({
        ...question,
        outputs_h,
        stages: stages.flatMap((one) => [
          { ...one, hours: one.hours / 3 },
          { ...one, hours: (2 * one.hours) / 3 },
        ]),
      });
      const [low, high] = [
        Math.min(11, ...stages.map((s) => s.emc_pct!)),
        Math.max(11, ...stages.map((s) => s.emc_pct!)),
      ];
      for (const value of [
        ...once.mean_pct,
        ...once.surface_pct,
        ...once.core_pct,
        ...once.profile.map((p) => p.moisture_pct),
      ]) {
        expect(value).toBeGreaterThan(low - 0.01);
        expect(value).toBeLessThan(high + 0.01);
      }
      once.mean_pct.forEach((mean, i) => {
        expect(Math.abs(mean - cut.mean_pct[i]!)).toBeLessThan(0.006);
      });
    }),
    { numRuns: 25 },
  );
});

// property: masses drawn about a piece whose factor is known; the factor lies within its doubt about as often as said
test("weighings tell the piece's factor within its doubt", () => {
  const random = randomStream(4_402);
  const question: DryingQuestion = {
    species: "sugar maple",
    thickness_mm: 25,
    start_pct: 12,
    stages: [{ hours: 96, temperature_C: 45, emc_pct: 5, faces: "both" }],
    outputs_h: [12, 24, 48, 72, 96],
  };
  let held = 0;
  const runs = 24;
  for (let run = 0; run < runs; run++) {
    const factor = Math.exp(random.normal(0, 0.5));
    const { mean_pct, hours } = dry({ ...question, diffusionFactor: factor });
    const weighings = hours.map((hour, i) => ({
      hour,
      mass_g: Math.round(10 * (800 * (1 + mean_pct[i]! / 100) + random.normal(0, 0.4))) / 10,
    }));
    const fit = dry({ ...question, weighings, ovenDry_g: 800 });
    expect(Math.abs(fit.diffusionFactor / factor - 1)).toBeLessThan(0.15);
    if (Math.abs(fit.diffusionFactor - factor) <= fit.doubt.diffusionFactor) held++;
  }
  expect(held, "seed 4402").toBeGreaterThanOrEqual(20);
});

test("over-dry is what falls too far, and gentle air checks less", () => {
  const ash = { species: "white ash", thickness_mm: 20, start_pct: 11, target_pct: 7 };
  const at = (emc_pct: number, surface_m_per_s: number) =>
    dry({ ...ash, stages: [{ hours: 600, temperature_C: 45, emc_pct, faces: "both", surface_m_per_s }] });
  expect(at(3, 1).overDry).toBe(true);
  expect(at(6.5, 1).overDry).toBe(false);
  expect(at(6.5, 1e-8).checkIndex).toBeLessThan(0.7 * at(6.5, 1).checkIndex);
});

test.each([
  ["species", { species: "balsawood" }],
  ["species", { species: undefined }],
  ["stages[0].humidity_pct", { stages: [{ hours: 1, temperature_C: 20, faces: "both" as const }] }],
  ["ovenDry_g", { weighings: [{ hour: 1, mass_g: 500 }] }],
  ["weighings[0].mass_g", { weighings: [{ hour: 1, mass_g: 500 }], ovenDry_g: 600 }],
  ["weighings", { weighings: [{ hour: 0, mass_g: 500 }], ovenDry_g: 450 }],
])("refuses at %s", (path, change) => {
  const ash = {
    species: "white ash",
    thickness_mm: 20,
    start_pct: 11,
    stages: [{ hours: 9, temperature_C: 45, emc_pct: 5, faces: "both" as const }],
  };
  expect(() => dry({ ...ash, ...change })).toThrow(expect.objectContaining({ path }));
});
