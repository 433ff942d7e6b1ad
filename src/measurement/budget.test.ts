import { expect, test } from "vitest";
import reference from "../../reference/statistics.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { summary } from "../maths/statistics/index.ts";
import { budget, type Component } from "./budget.ts";

const { gum_h1: endGauge, gum_h2: impedance, gum_s1_additive: sum } = reference.uncertainty;

/** l = l_s + d − l_s·(δα·θ + α_s·δθ), the sensitivities of annex H.1 at its estimates. */
function endGaugeBudget(confidence_pct: number) {
  const length_nm = 50_000_623;
  const from = (name: string) => endGauge.inputs.find((input) => input.name.startsWith(name))!;
  return budget(
    [
      { name: "standard", standard: from("l_s").u_m! * 1e9, freedom: from("l_s").df! },
      { name: "repeatability", standard: from("d (mean").u_m! * 1e9, freedom: 24 },
      { name: "comparator, random", standard: from("d random").u_m! * 1e9, freedom: 5 },
      { name: "comparator, systematic", standard: from("d systematic").u_m! * 1e9, freedom: 8 },
      {
        name: "difference of expansion",
        halfWidth: 1e-6,
        shape: "rectangular",
        sensitivity: length_nm * 0.1,
        freedom: 50,
      },
      {
        name: "difference of temperature",
        halfWidth: 0.05,
        shape: "rectangular",
        sensitivity: length_nm * 11.5e-6,
        freedom: 2,
      },
    ],
    [],
    confidence_pct,
  );
}

// source: JCGM 100:2008 annex H.1, as read in the documentation of a metrology institute's library; 99 % half-width
// from memory and recomputed (reference/statistics.json)
test("the end gauge of the guide comes out as printed", () => {
  const found = endGaugeBudget(99);
  expect(found.standard).toBeCloseTo(endGauge.u_c_recomputed_m * 1e9, 1);
  expect(Math.floor(found.freedom!)).toBe(endGauge.effective_df);
  expect(found.factor).toBeCloseTo(endGauge.k_99, 2);
  expect(Math.abs(found.doubt - endGauge.U_99_m * 1e9)).toBeLessThan(0.6);
  const part = (name: string) => found.lines.find((line) => line.name === name)!.contribution;
  expect(part("difference of temperature")).toBeCloseTo(endGauge.components_m.d_theta * 1e9, 1);
  expect(part("difference of expansion")).toBeCloseTo(endGauge.components_m.d_alpha * 1e9, 1);
  recordAccuracy({
    area: "measurement",
    what: "doubt budget of the end gauge: combined, effective freedom, 99 % half-width",
    source: endGauge.source,
    reached: `${found.standard.toFixed(1)} nm, ${found.freedom!.toFixed(1)}, ${found.doubt.toFixed(1)} nm`,
    limit: "32 nm, 16 (truncated), 93 nm as printed",
  });
});

// source: JCGM 100:2008 annex H.2: R = V/I·cos φ from five readings of each, correlated as read
test("correlated readings combine as in the guide's resistance", () => {
  const { V_V: volts, I_A: amps, phi_rad: angles } = impedance;
  const [V, I, phi] = [volts, amps, angles].map((readings) => summary(readings));
  const correlation = (a: readonly number[], b: readonly number[]) => {
    const [ma, mb] = [summary(a), summary(b)];
    return a.reduce((total, x, i) => total + (x - ma.mean) * (b[i]! - mb.mean), 0) / ((a.length - 1) * ma.sd * mb.sd);
  };
  const R = (V!.mean / I!.mean) * Math.cos(phi!.mean);
  const found = budget(
    [
      { name: "V", readings: volts, sensitivity: R / V!.mean },
      { name: "I", readings: amps, sensitivity: -R / I!.mean },
      { name: "phi", readings: angles, sensitivity: -(V!.mean / I!.mean) * Math.sin(phi!.mean) },
    ],
    [
      { between: ["V", "I"], r: correlation(volts, amps) },
      { between: ["V", "phi"], r: correlation(volts, angles) },
      { between: ["I", "phi"], r: correlation(amps, angles) },
    ],
  );
  expect(R).toBeCloseTo(impedance.recheck.R_ohm, 4);
  expect(found.standard).toBeCloseTo(impedance.recheck.u_R_ohm, 6);
  expect(found.freedom).toBe(4);
  recordAccuracy({
    area: "measurement",
    what: "doubt of a resistance from correlated readings",
    source: impedance.source,
    reached: `${found.standard.toFixed(4)} ohm`,
    limit: `${impedance.u_ohm.R} ohm as printed`,
  });
});

// source: JCGM 100:2008 annex H.2, tables H.3 and H.4: X = V/I·sin φ and Z = V/I of the same readings, printed 0.295 and
// 0.236 ohm (read as the reference says)
test("reactance and impedance of the same readings get the guide's spreads", () => {
  const { V_V: volts, I_A: amps, phi_rad: angles } = impedance;
  const [V, I, phi] = [volts, amps, angles].map((readings) => summary(readings).mean);
  const slopes = {
    X: [Math.sin(phi!) / I!, (-V! * Math.sin(phi!)) / I! ** 2, (V! * Math.cos(phi!)) / I!],
    Z: [1 / I!, -V! / I! ** 2, 0],
  };
  const { V_I, V_phi, I_phi } = impedance.correlations_inputs;
  const worst = (["X", "Z"] as const).map((name) => {
    const found = budget(
      [volts, amps, angles].map((readings, i) => ({ name: "VIp"[i]!, readings, sensitivity: slopes[name][i]! })),
      [
        { between: ["V", "I"], r: V_I },
        { between: ["V", "p"], r: V_phi },
        { between: ["I", "p"], r: I_phi },
      ],
    );
    return Math.abs(found.standard - impedance.u_ohm[name]);
  });
  // Correlations as printed, to two figures: worth some thousandths of an ohm.
  expect(Math.max(...worst)).toBeLessThan(0.003);
  recordAccuracy({
    area: "measurement",
    what: "doubt of reactance and impedance from correlated readings",
    source: impedance.source,
    reached: `${Math.max(...worst).toFixed(4)} ohm`,
    limit: "0.003 ohm (correlations printed to two figures)",
  });
});

// source: JCGM 101:2008 clause 9.2: four inputs of spread 1, combined 2, half-width 3.92
test("four alike inputs make twice their spread", () => {
  const found = budget(["a", "b", "c", "d"].map((name) => ({ name, standard: 1 })));
  expect(found.standard).toBeCloseTo(sum.normal_inputs.u, 12);
  expect(found.doubt).toBeCloseTo(sum.normal_inputs.interval_95[1]!, 2);
  expect(found.freedom).toBeUndefined();
});

test.each([
  [[], [], "components"],
  [[{ name: "a" }], [], "components[0]"],
  [[{ name: "a", standard: 1, halfWidth: 2 }], [], "components[0]"],
  [[{ name: "a", standard: -1 }], [], "components[0].standard"],
  [[{ name: "a", halfWidth: 1 }], [], "components[0].shape"],
  [[{ name: "a", standard: 1, sensitivity: Number.NaN }], [], "components[0].sensitivity"],
  [[{ name: "a", standard: 1, freedom: 0 }], [], "components[0].freedom"],
  [[{ name: "a", readings: [1] }], [], "components[0].readings"],
  [
    [
      { name: "a", standard: 1 },
      { name: "a", standard: 1 },
    ],
    [],
    "components[1].name",
  ],
  [[{ name: "a", standard: 1 }], [{ between: ["a", "b"] as const, r: 0.5 }], "correlations[0].between[1]"],
  [
    [
      { name: "a", standard: 1 },
      { name: "b", standard: 1 },
    ],
    [{ between: ["a", "b"] as const, r: 2 }],
    "correlations[0].r",
  ],
])("refuses %j with %j at %s", (components, correlations, path) => {
  expect(() => budget(components, correlations)).toThrow(expect.objectContaining({ path }));
});

const [a, b, c] = ["a", "b", "c"].map((name) => ({ name, standard: 1 })) as [Component, Component, Component];

// source: by hand: 3 and 4 make 5, shares 9 and 16 of 25
test("what brings most comes first, with its share of the variance", () => {
  const found = budget([
    { name: "lesser", standard: 3 },
    { name: "greater", standard: 2, sensitivity: -2 },
  ]);
  expect(found.standard).toBe(5);
  expect(found.lines.map(({ name }) => name)).toEqual(["greater", "lesser"]);
  expect(found.lines.map(({ contribution }) => contribution)).toEqual([4, 3]);
  expect(found.lines[0]!.share_pct).toBeCloseTo(64, 12);
  expect(found.lines[1]!.share_pct).toBeCloseTo(36, 12);
});

// source: by hand: spreads that go against each other wholly leave none; all three pairs at once can't
test("correlations that take all the spread off are held, those that would take more are refused", () => {
  const none = budget([a, b], [{ between: ["a", "b"], r: -1 }]);
  expect(none).toMatchObject({ standard: 0, doubt: 0 });
  expect(none.lines.map(({ share_pct }) => share_pct)).toEqual([0, 0]);
  expect(budget([a, b], [{ between: ["a", "b"], r: 1 }]).standard).toBe(2);
  const pairs = [
    ["a", "b"],
    ["b", "c"],
    ["a", "c"],
  ] as const;
  expect(() =>
    budget(
      [a, b, c],
      pairs.map((between) => ({ between, r: -1 })),
    ),
  ).toThrow(expect.objectContaining({ path: "correlations" }));
});

// source: tables of t and of the normal distribution (from memory): t of 3 degrees of freedom is 3.182, of 1 12.706
test("few readings count by their degrees of freedom, whole ones not lost to rounding", () => {
  const four = budget([{ name: "a", readings: [0.1, 0.2, 0.3, 0.7] }]);
  expect(four.freedom).toBeCloseTo(3, 9);
  expect(four.factor).toBeCloseTo(3.182, 3);
  const two = budget([{ name: "a", readings: [0.1, 0.2] }]);
  expect(two.factor).toBeCloseTo(12.706, 3);
  expect(two.standard).toBeCloseTo(0.05, 12);
  expect(budget([{ name: "a", standard: 1, freedom: 1 }]).factor).toBeCloseTo(12.706, 3);
});

test("a component may be nothing, and a budget may have two hundred", () => {
  expect(budget([{ name: "a", standard: 0 }])).toMatchObject({ standard: 0, doubt: 0 });
  expect(budget([{ name: "a", halfWidth: 0, shape: "doubt" }])).not.toHaveProperty("freedom");
  const many = Array.from({ length: 201 }, (_, i) => ({ name: `${i}`, standard: 1 }));
  expect(budget(many.slice(1)).standard).toBeCloseTo(Math.sqrt(200), 12);
  expect(() => budget(many)).toThrow(expect.objectContaining({ path: "components" }));
});

// source: tables of the normal distribution: half lies within 0.6745 spreads, 99.9 % within 3.2905
test("the share that the doubt holds is asked for between a half and all but a thousandth", () => {
  expect(budget([a], [], 50).factor).toBeCloseTo(0.6745, 4);
  expect(budget([a], [], 99.9).factor).toBeCloseTo(3.2905, 4);
  for (const confidence_pct of [49.9, 99.91, Number.NaN]) {
    expect(() => budget([a], [], confidence_pct)).toThrow(expect.objectContaining({ path: "confidence_pct" }));
  }
});

test.each([
  ["components[0].readings", { name: "a", readings: [1, Number.NaN] }],
  ["components[0].standard", { name: "a", standard: Number.POSITIVE_INFINITY }],
  ["components[0].halfWidth", { name: "a", halfWidth: -1, shape: "doubt" }],
] as const)("a component is refused at %s", (path, component) => {
  expect(() => budget([component])).toThrow(expect.objectContaining({ path }));
});

test.each([
  ["correlations[0].between", ["a", "a"], 0.5],
  ["correlations[0].between[0]", ["z", "a"], 0.5],
  ["correlations[0].r", ["a", "b"], -1.01],
  ["correlations[0].r", ["a", "b"], Number.NaN],
] as const)("a correlation is refused at %s", (path, between, r) => {
  expect(() => budget([a, b], [{ between, r }])).toThrow(expect.objectContaining({ path }));
});
