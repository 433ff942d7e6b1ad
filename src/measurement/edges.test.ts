import { expect, test } from "vitest";
import { normalCdf } from "../maths/statistics/index.ts";
import { capability, compareGroups, decisionRisk, guard, guardFor, readingsNeeded, windowShare } from "./index.ts";

// source: by hand: 3 to 12 about 9 with a spread of 1 leaves 9/6, 6/3 below and 3/3 above
test("capability tells each side there is a limit on, and the nearer one counts", () => {
  expect(capability({ mean: 9, sd: 1, low: 3, high: 12 })).toEqual({
    cp: { value: 1.5 },
    cpk: { value: 1 },
    cpLow: 2,
    cpHigh: 1,
  });
  expect(capability({ mean: 9, sd: 1, high: 12 })).toStrictEqual({ cpk: { value: 1 }, cpHigh: 1 });
  expect(capability({ mean: 9, sd: 1, low: 3 })).toStrictEqual({ cpk: { value: 2 }, cpLow: 2 });
});

// source: by hand with χ² of 2 degrees of freedom, −2·ln(1 − p): 0.050636 and 7.377759; √(1/27 + 1/4) = 0.535758
test("three pieces are enough for an interval, and two are not", () => {
  const { cp, cpk } = capability({ mean: 9, sd: 1, low: 6, high: 12, n: 3 });
  expect(cp!.low).toBeCloseTo(Math.sqrt(0.050636 / 2), 5);
  expect(cp!.high).toBeCloseTo(Math.sqrt(7.377759 / 2), 5);
  expect(cpk.low).toBeCloseTo(1 - 1.959964 * 0.535758, 5);
  expect(cpk.high).toBeCloseTo(1 + 1.959964 * 0.535758, 5);
  expect(() => capability({ mean: 9, sd: 1, low: 6, n: 2 })).toThrow(expect.objectContaining({ path: "n" }));
});

test.each([
  ["sd", { mean: 1, sd: 0, high: 2 }],
  ["high", { mean: 1, sd: 1 }],
  ["low", { mean: 1, sd: 1, low: 2, high: 2 }],
  ["low", { mean: 1, sd: 1, low: 3, high: 2 }],
])("capability refuses at %s", (path, made) => {
  expect(() => capability(made)).toThrow(expect.objectContaining({ path }));
});

// source: by hand: means 2 and 6 about 4, squares 16 between and 4 within; p of F = t² with 2 degrees of freedom,
// 1 − t/√(2 + t²) at t² = 8
test("two pairs are compared as by hand", () => {
  const found = compareGroups([
    [1, 3],
    [5, 7],
  ]);
  expect(found.between).toEqual({ freedom: 1, squares: 16, meanSquare: 16 });
  expect(found.within).toEqual({ freedom: 2, squares: 4, meanSquare: 2 });
  expect(found.F).toBe(8);
  expect(found.p).toBeCloseTo(1 - Math.sqrt(8 / 10), 9);
  expect(found.rSquared).toBe(0.8);
  expect(found.sd).toBe(Math.SQRT2);
});

test("groups that do not vary within, or not at all, have no ratio to tell", () => {
  const apart = compareGroups([[1], [2, 2]]);
  expect(apart).not.toHaveProperty("F");
  expect(apart).not.toHaveProperty("p");
  expect(apart).toMatchObject({ rSquared: 1, sd: 0, within: { freedom: 1 } });
  expect(compareGroups([[5], [5, 5]])).toMatchObject({ rSquared: 0, sd: 0 });
});

test.each([
  ["groups", [[1, 2]]],
  ["groups[1]", [[1, 2], []]],
  [
    "groups[0][1]",
    [
      [1, Number.NaN],
      [1, 2],
    ],
  ],
  ["groups", [[1], [2]]],
])("groups to compare are refused at %s", (path, groups) => {
  expect(() => compareGroups(groups)).toThrow(expect.objectContaining({ path }));
});

const asked = { sd: 1, difference: 0.5, falseAlarm: 0.05, missed: 0.1, sides: 2 } as const;

// source: by hand from tables of the normal and of t (from memory): (1.9600 + 1.2816)²·4 = 42.03; with t of 43 degrees
// (2.0167 + 1.3016)²·4 = 44.04 > 44, with t of 44 (2.0154 + 1.3011)²·4 = 43.997 ≤ 45. One side, five in a hundred
// missed as alarmed: 2·1.6449 squared, by 4, is 43.3
test("readings needed go by sides and by both chances", () => {
  expect(readingsNeeded(asked)).toEqual({ n: 45, nKnown: 43 });
  expect(readingsNeeded({ ...asked, sides: 1, missed: 0.05 }).nKnown).toBe(44);
  expect(readingsNeeded({ ...asked, sides: 1, falseAlarm: 0.1, missed: 0.05 }).nKnown).toBe(35);
});

// source: by hand from the table of t: of 2 degrees ((4.3027 + 1.8856)/3.4)² = 3.31 > 3, of 3 ((3.1824 + 1.6377)/3.4)² ≤ 4
test("both values of t are taken at the degrees of freedom that so many readings have", () => {
  expect(readingsNeeded({ ...asked, difference: 3.4 }).n).toBe(4);
});

// source: by hand: t of one degree is 12.706 and 3.078; of a hundredth of that difference two readings leave 0.025
test("a coarse difference takes two readings, or one where the spread is known", () => {
  expect(readingsNeeded({ ...asked, difference: 100 })).toEqual({ n: 2, nKnown: 1 });
});

// source: by hand: (1.9600 + 1.2816)² = 10.507; spread over difference of 308 takes 996,800 readings, of 309 over a million
test("a difference finer than a million readings is refused", () => {
  expect(readingsNeeded({ ...asked, difference: 1 / 308 }).nKnown).toBeLessThan(1_000_000);
  expect(() => readingsNeeded({ ...asked, difference: 1 / 309 })).toThrow(
    expect.objectContaining({ path: "difference" }),
  );
});

test.each([
  ["sd", { sd: 0 }],
  ["sd", { sd: Number.POSITIVE_INFINITY }],
  ["difference", { difference: 0 }],
  ["difference", { difference: Number.NaN }],
  ["falseAlarm", { falseAlarm: 0 }],
  ["falseAlarm", { falseAlarm: 0.5 }],
  ["missed", { missed: 0 }],
  ["missed", { missed: 0.5 }],
])("readings needed are refused at %s of %j", (path, given) => {
  expect(() => readingsNeeded({ ...asked, ...given })).toThrow(expect.objectContaining({ path }));
});

const pieces = { mean: 0, sd: 1, doubt: 0, low: -1, high: 1 };

// source: tables of the normal distribution: 0.682689 within 1, 0.382925 within 0.5, 0.954500 within 2
test("without doubt of reading only the guard band turns good pieces away, and only a negative one takes bad ones in", () => {
  const plain = decisionRisk({ ...pieces, guard: 0 });
  expect(plain.outside).toBeCloseTo(0.317311, 6);
  expect(plain.accepted).toBeCloseTo(0.682689, 6);
  expect(plain.falseAccept).toBeCloseTo(0, 9);
  expect(plain.falseReject).toBeCloseTo(0, 9);
  const guarded = decisionRisk({ ...pieces, guard: 0.5 });
  expect(guarded.accepted).toBeCloseTo(0.382925, 6);
  expect(guarded.falseReject).toBeCloseTo(0.299765, 6);
  expect(guarded.falseAccept).toBe(0);
  const lax = decisionRisk({ ...pieces, guard: -1 });
  expect(lax.falseAccept).toBeCloseTo(0.27181, 6);
  expect(lax.accepted).toBeCloseTo(0.9545, 6);
});

test("guard bands that meet accept nothing", () => {
  for (const doubt of [0, 0.3]) {
    const none = decisionRisk({ ...pieces, doubt, guard: 1.5 });
    expect(none).toMatchObject({ accepted: 0, falseAccept: 0 });
    expect(none.falseReject).toBeCloseTo(0.682689, 6);
  }
});

// source: by hand: a gamma whose mean is its spread falls off as e^−x
test("pieces that spread as a gamma are told below and above their limits", () => {
  const made = { mean: 1, sd: 1, shape: "gamma", doubt: 0, guard: 0 } as const;
  const above = decisionRisk({ ...made, high: 2 });
  expect(above.outside).toBeCloseTo(Math.exp(-2), 9);
  expect(above.accepted).toBeCloseTo(1 - Math.exp(-2), 6);
  const below = decisionRisk({ ...made, low: 0.5 });
  expect(below.outside).toBeCloseTo(1 - Math.exp(-0.5), 9);
  expect(below.accepted).toBeCloseTo(Math.exp(-0.5), 6);
  expect(decisionRisk({ ...made, low: 0.5, high: 2, guard: 0.25 }).accepted).toBeCloseTo(
    Math.exp(-0.75) - Math.exp(-1.75),
    6,
  );
});

// source: by hand: only readings at 0 and more are taken of pieces about 0, half of them, whatever their doubt
test("one lower limit is judged as one upper limit, mirrored", () => {
  const [below, above] = [
    { ...pieces, doubt: 1.2, low: -0.4, high: undefined, guard: 0.4 },
    { ...pieces, doubt: 1.2, low: undefined, high: 0.4, guard: 0.4 },
  ].map((given) => decisionRisk(given));
  expect(below!.accepted).toBeCloseTo(0.5, 9);
  for (const name of ["outside", "falseAccept", "falseReject", "accepted"] as const) {
    expect(below![name]).toBeCloseTo(above![name], 9);
  }
});

test.each([
  ["mean", { mean: Number.NaN }],
  ["sd", { sd: Number.POSITIVE_INFINITY }],
  ["doubt", { doubt: Number.POSITIVE_INFINITY }],
  ["high", { low: undefined, high: undefined }],
  ["low", { low: 1.5 }],
  ["mean", { shape: "gamma", mean: 0.9 }],
] as const)("risks are refused at %s of %j", (path, given) => {
  expect(() => decisionRisk({ ...pieces, guard: 0, ...given })).toThrow(expect.objectContaining({ path }));
});

// source: closed form of the quadrant (decisionRisk.test.ts), from readings far finer than the pieces' spread to far coarser
test.each([0.0005, 0.02, 3, 40])(
  "risks hold their figures where a reading scatters %f times what pieces do",
  (ratio) => {
    for (const [mean, sd] of [
      [0, 1],
      [7, 0.01],
      [-300, 50],
    ] as const) {
      const quadrant = 1 / 4 - Math.asin(1 / Math.hypot(1, ratio)) / (2 * Math.PI);
      for (const limits of [{ high: mean }, { low: mean }]) {
        const found = decisionRisk({ mean, sd, doubt: 1.96 * ratio * sd, guard: 0, ...limits });
        expect(Math.abs(found.falseAccept - quadrant)).toBeLessThan(1e-8);
        expect(Math.abs(found.falseReject - quadrant)).toBeLessThan(1e-8);
        expect(Math.abs(found.accepted - 0.5)).toBeLessThan(1e-8);
      }
    }
  },
);

// source: closed form, by parts: pieces that fall off as e^−x, read with a normal scatter u and taken up to t, are over h
// and taken at e^−h·Φ((t − h)/u) − e^(u²/2 − t)·Φ((t − h)/u − u)
test.each([0.001, 0.05, 0.6])(
  "pieces that spread as a gamma have the risks of the closed form at a scatter of %f",
  (u) => {
    for (const [high, guard] of [
      [2, 0],
      [2, 0.3],
      [0.7, -0.4],
      [5, 0.1],
    ] as const) {
      const off = -guard / u;
      const taken = high - guard;
      const closed = Math.exp(-high) * normalCdf(off) - Math.exp(u ** 2 / 2 - taken) * normalCdf(off - u);
      const found = decisionRisk({ mean: 1, sd: 1, shape: "gamma", doubt: 1.96 * u, high, guard });
      expect(Math.abs(found.falseAccept - closed)).toBeLessThan(1e-8);
    }
  },
);

test("limits may meet, and a gamma's mean may be its spread", () => {
  expect(decisionRisk({ ...pieces, low: 1, guard: 0 }).accepted).toBeCloseTo(0, 9);
  expect(decisionRisk({ ...pieces, mean: 1, shape: "gamma", guard: 0 }).outside).toBeCloseTo(Math.exp(-1), 6);
});

test.each([1e-3, 40])("in a unit %f times as large all bands are as much larger", (k) => {
  const band = guardFor({ mean: 0.2, sd: 1, doubt: 1, low: -2, high: 2 }, 0.001);
  const scaled = guardFor({ mean: 0.2 * k, sd: k, doubt: k, low: -2 * k, high: 2 * k }, 0.001);
  expect(Math.abs(scaled / (k * band) - 1)).toBeLessThan(1e-9);
});

// source: by hand: between two limits nothing is accepted at half their distance, which is as near as a band can get
test("a reading too doubtful for its limits gets a band that leaves next to nothing", () => {
  const coarse = { mean: 3, sd: 1, doubt: 4, low: -0.01, high: 0.01 };
  const band = guardFor(coarse, 1e-9);
  expect(band).toBeGreaterThan(0.0099);
  expect(band).toBeLessThanOrEqual(0.01);
  expect(decisionRisk({ ...coarse, guard: band }).falseAccept).toBeLessThanOrEqual(1e-9);
});

test("the share that may be falsely accepted is asked for as a share", () => {
  for (const share of [0, 1, Number.NaN]) {
    expect(() => guardFor(pieces, share)).toThrow(expect.objectContaining({ path: "falseAccept" }));
  }
});

// source: second method: the risk at the band told is the one asked for, at a hair less it is over
test("of one limit too, the guard band is the least that will do", () => {
  const given = { mean: 0, sd: 1, doubt: 1, high: 1 };
  const band = guardFor(given, 0.001)!;
  expect(band).toBeGreaterThan(0);
  expect(decisionRisk({ ...given, guard: band }).falseAccept).toBeCloseTo(0.001, 9);
  expect(decisionRisk({ ...given, guard: band - 1e-6 }).falseAccept).toBeGreaterThan(0.001);
});

test.each([
  ["low", { value: 1, doubt: 1, low: Number.NaN }],
  ["doubt", { value: 1, doubt: Number.NaN, high: 2 }],
  ["value", { value: Number.POSITIVE_INFINITY, doubt: 1, high: 2 }],
])("a reading is refused at %s", (path, reading) => {
  expect(() => guard(reading)).toThrow(expect.objectContaining({ path }));
});

// source: by hand: without doubt the limits themselves are inside, and beyond either of them all is outside
test("without doubt a reading is judged on the limit itself, on both sides", () => {
  expect(guard({ value: -1, doubt: 0, low: 0, high: 2 })).toEqual({ state: "refuted", riskFalseAccept: 1 });
  expect(guard({ value: 0, doubt: 0, low: 0, high: 2 })).toEqual({ state: "proven", riskFalseAccept: 0 });
  expect(guard({ value: 1, doubt: 0, low: 0 })).toEqual({ state: "proven", riskFalseAccept: 0 });
});

test("a reading that is left out is asked for", () => {
  const reading: object = { doubt: 1, high: 2 };
  expect(() => guard(reading as Parameters<typeof guard>[0])).toThrow(expect.objectContaining({ path: "value" }));
});

// source: by hand: 1000.3 − 1000.2 is 0.1 as written, and less than 0.1 by 5e-14 in binary; the number after 10 is over it
test("a distance as written in decimals counts as written at any size, and without doubt nothing is let off", () => {
  expect(guard({ value: 1000.2, doubt: 0.1, high: 1000.3 }).state).toBe("proven");
  expect(guard({ value: 10 * (1 + Number.EPSILON), doubt: 0, high: 10 }).state).toBe("refuted");
});

test("a window with one end has a guard and no share, whichever end it is", () => {
  expect(windowShare(0.05, 1, undefined)).toEqual({ guard: 1.96 * 0.05 });
  expect(windowShare(0.05, undefined, 1)).toEqual({ guard: 1.96 * 0.05 });
  expect(windowShare(0, 3, 2).eaten_pct).toBe(100);
});
