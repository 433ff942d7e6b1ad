import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type Course, runCourse, type Stretch } from "./course.ts";
import type { Face } from "./face.ts";

const law = { kind: "arrhenius", d0_m2_per_s: 19.2e-4, activation_K: 5280, moistureFactor: 1.15 } as const;
const open = (emc_pct: number, surface_m_per_s = Number.POSITIVE_INFINITY): Face => ({
  open: true,
  emc_pct,
  surface_m_per_s,
});
const shut: Face = { open: false };
const both = (hours: number, wood_C: number, emc_pct: number): Stretch => ({
  hours,
  wood_C,
  faces: [open(emc_pct), open(emc_pct)],
});

// source: scipy (Debian), LSODA at 1e-8, even cells, 220 and 440 extrapolated; surface values by brentq: 22 mm, red oak's
// law times 1.4, from 11.5 %: 100 h at 20 °C to 9 %; 60 h at 45 °C to 4 % through 2e-8 m/s, second face shut; 2 and 1 mm
// planed off; 200 h at 25 °C between 6 and 3 %
test("follows a piece through a coat, a shut face, planing and unlike faces as a second method does", () => {
  const stretches: Stretch[] = [
    both(100, 20, 9),
    { hours: 60, wood_C: 45, faces: [open(4, 2e-8), shut] },
    { hours: 200, wood_C: 25, faces: [open(6), open(3)], taken_mm: [2, 1] },
  ];
  const course: Course = { thickness_mm: 22, start_pct: 11.5, stretches, law };
  const { means_pct, begins_pct, snapshots } = runCourse(course, 1.4, [100, 160, 360]);
  const ours = [means_pct[0]!, means_pct[1]!, begins_pct[2]!, means_pct[2]!];
  const theirs = [10.46369, 9.67221, 9.8282, 5.89507];
  const worst = Math.max(...theirs.map((value, i) => Math.abs(value - ours[i]!)));
  expect(worst).toBeLessThan(0.004);
  expect(Math.abs(snapshots[2]!.core_pct - 6.68)).toBeLessThan(0.01);
  recordAccuracy({
    area: "timber",
    what: "mean moisture through three stages, a coat, planing and unlike faces",
    source: "scipy LSODA, fine even cells, extrapolated",
    reached: `${worst.toFixed(4)} % MC`,
    limit: "0.004 % MC",
  });
});

// property: half a board with its middle shut is the whole board; the half is unfolded when the faces come to differ
test("means by halves are the means of the whole", () => {
  const stretches = [both(50, 20, 9), { ...both(60, 45, 4), taken_mm: [1, 1] as const }];
  const uneven: Stretch = { hours: 40, wood_C: 60, faces: [open(2), shut] };
  for (const some of [stretches, [...stretches, uneven]]) {
    const course: Course = { thickness_mm: 20, start_pct: 12, stretches: some, law, target_pct: 8 };
    const [halves, whole] = (["means", "profiles"] as const).map((keep) =>
      runCourse(course, 1, [20, 50, 80, 150], keep),
    );
    halves!.means_pct.forEach((mean, i) => {
      expect(Math.abs(mean - whole!.means_pct[i]!)).toBeLessThan(0.003);
    });
    expect(Math.abs(halves!.hoursToTarget! / whole!.hoursToTarget! - 1)).toBeLessThan(0.002);
  }
});

// source: by hand: an even board loses nothing from its mean when planed; a parabola 12 − 4x² over −1 … 1 planed to the
// middle half holds 12 − 4/12 = 11.667 %
test("planing leaves the moisture that was there", () => {
  const even: Course = {
    thickness_mm: 20,
    start_pct: 12,
    law,
    stretches: [{ hours: 0, wood_C: 20, faces: [shut, shut], taken_mm: [5, 3] }],
  };
  const { means_pct, ends } = runCourse(even, 1, [0]);
  expect(means_pct[0]).toBeCloseTo(12, 9);
  expect(ends[0]!.slab.thickness_m).toBeCloseTo(0.012, 12);
});

// source: between faces at 6 and 3 % the profile comes to a straight line of ∫D·dM: ln((e^6s + e^3s)/2)/s at the middle
test("between unlike faces the middle comes to rest where the steady flow says", () => {
  const course: Course = {
    thickness_mm: 10,
    start_pct: 9,
    law,
    stretches: [{ hours: 1, wood_C: 45, faces: [open(6), open(3)] }],
  };
  const { snapshots } = runCourse({ ...course, target_pct: 4 }, 1, [20_000]);
  const s = 0.0115;
  expect(snapshots[0]!.core_pct).toBeCloseTo(Math.log((Math.exp(6 * s) + Math.exp(3 * s)) / 2) / s, 4);
  expect(runCourse({ ...course, target_pct: 4 }, 1, [1])).not.toHaveProperty("hoursToTarget");
});

// source: reference/timber.json, numeric_benchmark: 20 mm at 45 °C, 12 to 5 % at the faces: 8.27 % after 48 h (9.37 after 24)
test("two days in the warm chamber leave half of the change undone in a 20 mm board", () => {
  const at48 = runCourse({ thickness_mm: 20, start_pct: 12, law, stretches: [both(48, 45, 5)] }, 1, [48]).means_pct[0]!;
  expect((at48 - 5) / 7).toBeCloseTo(0.467, 2);
});
