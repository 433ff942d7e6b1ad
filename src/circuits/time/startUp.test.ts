import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { BadInput } from "../../maths/badInput.ts";
import { readNetlist } from "../netlist.ts";
import { solveRest } from "../rest.ts";
import { distortion } from "../steady/distortion.ts";
import fixtures from "../steady/fixtures/steady.json" with { type: "json" };
import { capacitor, type Parts, resistor, source } from "../testing/parts.ts";
import { rippleOf } from "./ripple.ts";
import { type StartUp, type StartUpQuestion, startUp } from "./startUp.ts";

const silicon = { saturation_A: 1e-9, emission: 1.8, temperature_C: 25 };
const diode = (id: string, plate: string, cathode: string, law = silicon): Parts[number] => ({
  id,
  kind: "diode",
  between: [plate, cathode],
  law,
});
const centreTapped = (secondary_ohm: number, leakage_H = 0): Parts => [
  source("M", "m"),
  {
    id: "T1",
    kind: "transformer",
    windings: [
      { between: ["m", "0"], turns: 1, resistance_ohm: 1e-3 },
      { between: ["s1", "0"], turns: 1, resistance_ohm: secondary_ohm },
      { between: ["0", "s2"], turns: 1, resistance_ohm: secondary_ohm },
    ],
    primaryInductance_H: 1000,
    leakage_H,
  },
];

function solved(parts: Parts, question: StartUpQuestion): StartUp {
  const answer = startUp(readNetlist({ ground: "0", parts }), question);
  if (answer.state !== "solved") throw new Error(answer.reason);
  return answer;
}

const relative = (found: number, wanted: number): number => Math.abs(found / wanted - 1);

describe("closed forms", () => {
  // source: 100·(1 − e^(−t/RC)) by hand; means over spans of T by its integral
  test("a capacitor through a resistor", () => {
    const { points } = solved(
      [source("B", "in", 100), resistor("R1", "in", "c", 1000), capacitor("C1", "c", "0", 100)],
      {
        duration_s: 1,
        points: ["c"],
      },
    );
    const { time_s, mean_V, settle_s } = points.c!;
    const span = time_s[1]! - time_s[0]!;
    time_s.forEach((end, i) => {
      const wanted = 100 - (100 * 0.1 * (Math.exp(-(end - span) / 0.1) - Math.exp(-end / 0.1))) / span;
      expect(Math.abs(mean_V[i]! - wanted)).toBeLessThan(0.05);
    });
    expect(settle_s).toBeCloseTo(0.1 * Math.log(50), 1);
  });

  // source: series circuit by hand: peak 100·(1 + e^(−πα/ω)) at π/ω, α = R/2L, ω² = 1/LC − α²
  test("a capacitor through a choke rings to its overshoot", () => {
    const [ohm, henry, farad] = [20, 0.1, 1e-5];
    const { points, capacitors } = solved(
      [
        source("B", "in", 100),
        resistor("R1", "in", "l", ohm),
        { id: "L1", kind: "inductor", between: ["l", "c"], H: henry },
        capacitor("C1", "c", "0", farad * 1e6),
      ],
      { duration_s: 0.2, points: ["c"], ratings_V: { C1: 160 } },
    );
    const alpha = ohm / 2 / henry;
    const omega = Math.sqrt(1 / henry / farad - alpha ** 2);
    const peak_V = 100 * (1 + Math.exp((-Math.PI * alpha) / omega));
    expect(relative(points.c!.peak_V, peak_V)).toBeLessThan(3e-3);
    expect(points.c!.peakAt_s).toBeCloseTo(Math.PI / omega, 3);
    expect(points.c!.final_V).toBeCloseTo(100, 3);
    expect(capacitors.C1).toMatchObject({ rated_V: 160, state: "over" });
    recordAccuracy({
      area: "circuits",
      what: "overshoot of a capacitor charged through a choke",
      source: "closed form of the series circuit",
      reached: `${(100 * relative(points.c!.peak_V, peak_V)).toFixed(3)} %`,
      limit: "0.3 %",
    });
  });

  // source: with a reservoir without end and diodes without drop, the current flows for |x| < θ about the crest where
  // Vp·(cos x) > V: V = Vp·cos θ and tan θ − θ = π·Rs/(2·R) (worked by hand from the mean current)
  test.each([0.005, 0.02, 0.1])("full-wave rectifier, large reservoir, source resistance %s of the load", (ratio) => {
    const load = 1000;
    const series = ratio * load;
    let [low, high] = [0, Math.PI / 2];
    while (high - low > 1e-14) {
      const middle = (low + high) / 2;
      if (middle === low || middle === high) break;
      if (Math.tan(middle) - middle > (Math.PI / 2) * ratio) high = middle;
      else low = middle;
    }
    const peak = 300;
    const nearlyIdeal = { saturation_A: 1e-6, emission: 0.1, temperature_C: 25 };
    const { points, diodes } = solved(
      [
        ...centreTapped(series),
        diode("D1", "s1", "c", nearlyIdeal),
        diode("D2", "s2", "c", nearlyIdeal),
        capacitor("C1", "c", "0", 2000),
        resistor("R1", "c", "0", load),
      ],
      { mains: { source: "M", frequency_Hz: 50, voltage_Vrms: peak / Math.SQRT2 }, duration_s: 3, points: ["c"] },
    );
    expect(relative(points.c!.final_V, peak * Math.cos(low))).toBeLessThan(1.5e-3);
    expect(relative(diodes.D1!.runningPeak_mA, (1e3 * peak * (1 - Math.cos(low))) / series)).toBeLessThan(0.03);
    recordAccuracy({
      area: "circuits",
      what: `full-wave rectifier into a large reservoir, source resistance ${ratio} of the load`,
      source: "closed form of the conduction angle",
      reached: `${(100 * relative(points.c!.final_V, peak * Math.cos(low))).toFixed(3)} % of the voltage`,
      limit: "0.15 %",
    });
  });

  // source: an empty capacitor is a short-circuit: the crest of the wave over the resistance
  test("the worst inrush into an empty capacitor is the crest over the resistance", () => {
    const { inrush } = solved(
      [source("M", "m"), resistor("R1", "m", "c", 10), capacitor("C1", "c", "0", 1e6), resistor("R2", "c", "0", 1e5)],
      { mains: { source: "M", frequency_Hz: 50, voltage_Vrms: 230 }, duration_s: 0.1, points: ["c"] },
    );
    expect(relative(inrush!.peak_A, (230 * Math.SQRT2) / 10)).toBeLessThan(5e-3);
  });

  // source: Fourier series of a triangle, (8/π²)/n² of its peak at odd orders; the moments are uneven on purpose
  test("ripple of a triangle wave on a drift", () => {
    const [time_s, volts]: [number[], number[]] = [[], []];
    for (let n = 0; n <= 4000; n++) {
      const t = (n / 4000) * 0.1;
      const phase = (t * 50) % 1;
      time_s.push(t);
      volts.push(3 * t + (phase < 0.5 ? 4 * phase - 1 : 3 - 4 * phase));
    }
    const found = rippleOf({ time_s, volts }, 50, 5);
    [1, 3, 5].forEach((n) => {
      expect(found[n - 1]!.level_Vrms).toBeCloseTo(8 / Math.PI ** 2 / n ** 2 / Math.SQRT2, 4);
    });
    expect(found[1]!.level_Vrms).toBeLessThan(1e-3);
  });
});

describe("second methods", () => {
  // source: ../steady/fixtures/steady.py, scipy's Radau and shooting
  test("a diode with reservoir, once it runs", () => {
    const { netlist, question, answer } = fixtures.cases.find(({ name }) => name === "a diode with reservoir")!;
    const load = resistor("load", "out", "0", question.load_ohm);
    const { points } = solved([...(netlist.parts as Parts), load], {
      mains: { source: "IN", frequency_Hz: question.frequency_Hz, voltage_Vrms: question.amplitude_Vpk / Math.SQRT2 },
      duration_s: 3,
      points: ["out"],
    });
    const { final_V, ripple } = points.out!;
    const total = Math.hypot(...ripple.map(({ level_Vrms }) => level_Vrms));
    expect(relative(final_V, answer.mean_V)).toBeLessThan(1e-3);
    expect(relative(total, answer.output_Vrms)).toBeLessThan(5e-3);
    recordAccuracy({
      area: "circuits",
      what: "mean and ripple of a half-wave rectifier with reservoir",
      source: "independent integration in time (scipy Radau, shooting)",
      reached: `${(100 * relative(final_V, answer.mean_V)).toFixed(3)} % and ${(100 * relative(total, answer.output_Vrms)).toFixed(2)} %`,
      limit: "0.1 % and 0.5 %",
    });
  });

  // source: the harmonic balance of the same net list, which knows nothing of time
  test("choke, two capacitors and leakage: the same ripple as by harmonics", () => {
    const parts: Parts = [
      ...centreTapped(60, 0.02),
      diode("D1", "s1", "c"),
      diode("D2", "s2", "c"),
      capacitor("C1", "c", "0", 22),
      { id: "L1", kind: "inductor", between: ["c", "ht"], H: 4, resistance_ohm: 120 },
      capacitor("C2", "ht", "0", 47),
      resistor("R1", "ht", "0", 4000),
    ];
    const mains = { source: "M", frequency_Hz: 50, voltage_Vrms: 250 };
    const { points } = solved(parts, { mains, duration_s: 2, points: ["c", "ht"] });
    for (const node of ["c", "ht"]) {
      const steady = distortion(readNetlist({ ground: "0", parts }), {
        input: "M",
        output: node,
        frequency_Hz: 50,
        amplitude_Vpk: 250 * Math.SQRT2,
      });
      if (steady.state !== "solved") throw new Error(steady.reason);
      expect(relative(points[node]!.final_V, steady.mean_V)).toBeLessThan(1e-3);
      const total = Math.hypot(...points[node]!.ripple.map(({ level_Vrms }) => level_Vrms));
      expect(relative(total, steady.output_Vrms)).toBeLessThan(0.01);
    }
  });

  // source: the working point, which knows nothing of time
  test("valves warm up to their working point, after the supply has overshot", () => {
    const parts: Parts = [
      source("B", "b", 320),
      resistor("RS", "b", "ht", 2200),
      capacitor("C1", "ht", "0", 47),
      resistor("RA", "ht", "a", 47_000),
      { id: "V1", kind: "triode", type: "6SN7GT", plate: "a", grid: "g", cathode: "k" },
      resistor("RG", "g", "0", 470_000),
      resistor("RK", "k", "0", 1000),
      capacitor("CK", "k", "0", 220),
      { id: "V2", kind: "triode", type: "6AS7G", plate: "ht", grid: "a", cathode: "out" },
      resistor("RO", "out", "0", 4700),
    ];
    const rest = solveRest(readNetlist({ ground: "0", parts }));
    if (rest.state !== "solved") throw new Error(rest.reason);
    const { points } = solved(parts, { duration_s: 20, warmUp_s: { V1: 9, V2: 14 }, points: ["ht", "a", "k", "out"] });
    for (const node of ["ht", "a", "k", "out"]) {
      expect(relative(points[node]!.final_V, rest.nodes[node]!)).toBeLessThan(2e-3);
    }
    expect(points.ht!.peak_V).toBeGreaterThan(319);
    expect(points.ht!.overshoot_V).toBeCloseTo(points.ht!.peak_V - rest.nodes.ht!, 0);
  });
});

// property: capacitors keep no charge over a period, so the diodes' mean currents are the load's
test("what the diodes bring, the load takes", () => {
  const supply = fc.record({
    uF: fc.double({ min: 10, max: 200, noNaN: true }),
    load: fc.double({ min: 500, max: 20_000, noNaN: true }),
    secondary: fc.double({ min: 5, max: 200, noNaN: true }),
    isValve: fc.boolean(),
    frequency_Hz: fc.constantFrom(50, 60),
  });
  fc.assert(
    fc.property(supply, ({ uF, load, secondary, isValve, frequency_Hz }) => {
      const section = (id: string, plate: string): Parts[number] =>
        isValve
          ? { id, kind: "rectifier", between: [plate, "c"], law: { perveance_mA_per_V1p5: 3 } }
          : diode(id, plate, "c");
      const { points, diodes } = solved(
        [
          ...centreTapped(secondary, 0.01),
          section("D1", "s1"),
          section("D2", "s2"),
          capacitor("C1", "c", "0", uF),
          resistor("R1", "c", "0", load),
        ],
        {
          mains: { source: "M", frequency_Hz, voltage_Vrms: 200 },
          duration_s: 10 * Math.max(0.1, 1e-6 * uF * load),
          warmUp_s: 0.1,
          points: ["c"],
        },
      );
      const { final_V, peak_V, settle_s } = points.c!;
      const brought_mA = diodes.D1!.runningMean_mA + diodes.D2!.runningMean_mA;
      expect(settle_s).toBeDefined();
      expect(relative(brought_mA, (1e3 * final_V) / load)).toBeLessThan(0.01);
      expect(peak_V).toBeLessThan(200 * Math.SQRT2 * 1.02 + 25);
    }),
    { numRuns: 6 },
  );
}, 30_000);

describe("bad input", () => {
  const parts: Parts = [
    source("M", "m"),
    resistor("R1", "m", "c", 10),
    capacitor("C1", "c", "0", 10),
    resistor("R2", "c", "0", 1e5),
  ];
  const question: StartUpQuestion = { duration_s: 0.1, points: ["c"] };
  const refusedAt = (change: Partial<StartUpQuestion>): string => {
    try {
      startUp(readNetlist({ ground: "0", parts }), { ...question, ...change });
    } catch (error) {
      if (error instanceof BadInput) return error.path;
      throw error;
    }
    return "";
  };
  test("is named", () => {
    expect(refusedAt({ points: ["c", "nowhere"] })).toBe("points[1]");
    expect(refusedAt({ mains: { source: "R1", frequency_Hz: 50, voltage_Vrms: 1 } })).toBe("mains.source");
    expect(refusedAt({ ratings_V: { R1: 3 } })).toBe("ratings_V.R1");
    expect(refusedAt({ warmUp_s: { R1: 3 } })).toBe("warmUp_s.R1");
    expect(refusedAt({ mains: { source: "M", frequency_Hz: 50, voltage_Vrms: 1 }, duration_s: 1000 })).toBe(
      "duration_s",
    );
  });
});
