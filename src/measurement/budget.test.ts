import { expect, test } from "vitest";
import reference from "../../reference/statistics.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { summary } from "../maths/statistics/index.ts";
import { budget } from "./budget.ts";

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
