import { describe, expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import type { Setting } from "./cause.ts";
import { designOf, inseparable } from "./design.ts";
import { sampleLine } from "./linePosterior.ts";
import { scaledBesselI0 } from "./scaledBessel.ts";
import { missingContrast } from "./verdict.ts";

const on = (source: "building" | "regenerated", frequency_Hz: number, valves: Record<string, string>): Setting => ({
  supply: { source, frequency_Hz },
  offset: frequency_Hz !== 50,
  valves,
});
const all = () => true;
const of = (settings: readonly Setting[]) => {
  const design = designOf(settings, 0, all);
  const place = (cause: string, valve = "") =>
    design.sources.findIndex((s) => s.cause === cause && (s.cause !== "valve" || s.valve === valve));
  return { design, place, missing: (cause: string, valve = "") => missingContrast(design, place(cause, valve)) };
};

describe("the contrast each cause needs", () => {
  const old = { V1: "a", V2: "b" };

  test("on one supply and one set of valves nothing may be decided", () => {
    const { missing } = of([on("building", 50, old), on("building", 50, old)]);
    for (const cause of ["mains", "pick-up", "amplifier"]) expect(missing(cause)).toBeTruthy();
    expect(missing("valve", "a")).toMatch(/never exchanged/);
  });

  test("an offset supply alone decides pick-up, and with the building's supply mains", () => {
    const { missing } = of([on("building", 50, old), on("regenerated", 57, old)]);
    expect(missing("pick-up")).toBeUndefined();
    expect(missing("mains")).toBeUndefined();
    expect(missing("amplifier")).toMatch(/a at V1 and valve b at V2 were never exchanged/);
  });

  test("a locked clean supply decides mains but neither pick-up nor amplifier", () => {
    const { missing } = of([on("building", 50, old), on("regenerated", 50, old)]);
    expect(missing("mains")).toBeUndefined();
    expect(missing("pick-up")).toBeTruthy();
    expect(missing("amplifier")).toBeTruthy();
  });

  test("the amplifier needs every valve exchanged", () => {
    const one = [on("building", 50, old), on("regenerated", 57, old), on("regenerated", 57, { V1: "c", V2: "b" })];
    expect(of(one).missing("amplifier")).toMatch(/valve b at V2 was never exchanged/);
    const both = [...one, on("regenerated", 57, { V1: "a", V2: "d" })];
    expect(of(both).missing("amplifier")).toBeUndefined();
    expect(of(both).missing("valve", "b")).toBeUndefined();
  });

  test("two valves exchanged at once cannot be told apart", () => {
    const { missing, design, place } = of([on("building", 50, old), on("building", 50, { V1: "c", V2: "d" })]);
    expect(missing("valve", "a")).toMatch(/valve a at V1 and valve b at V2 came and went together/);
    expect(inseparable(design, place("valve", "a"), place("valve", "b"))).toBe(true);
  });

  test("mains and a valve changed in the same step cannot be told apart", () => {
    const { missing } = of([on("building", 50, old), on("regenerated", 57, { V1: "c", V2: "b" })]);
    expect(missing("mains")).toMatch(/came and went together/);
  });
});

describe("what one line says", () => {
  const design = designOf(
    [on("building", 50, { V1: "a" }), on("regenerated", 57, { V1: "a" }), on("regenerated", 57, { V1: "c" })],
    0,
    all,
  );
  const shareOf = (cause: string, readings: readonly number[], phase?: number) => {
    const seen = readings.map((amplitude, sight) => ({ sight, amplitude, noise: 1e-3, phase_rad: phase }));
    const samples = sampleLine(design, seen, { samples: 400, random: randomStream("line") }).powers;
    const s = design.sources.findIndex((source) => source.cause === cause);
    return (
      samples.reduce((sum, x) => sum + x[s]! / design.fitted.reduce((all, f) => all + x[f]!, 0), 0) / samples.length
    );
  };

  // Sights in order: building; 57 Hz its own, the building's; 57 Hz with the other valve, the building's.
  test("a line that stays at the building's frequency is pick-up", () => {
    expect(shareOf("pick-up", [1, 0.01, 1, 0.01, 1])).toBeGreaterThan(0.95);
  });
  test("a line that goes on a clean supply is the mains'", () => {
    expect(shareOf("mains", [1, 0.01, 0.01, 0.01, 0.01])).toBeGreaterThan(0.95);
  });
  test("a line that follows the supply and stays when the valve goes is the amplifier's", () => {
    expect(shareOf("amplifier", [1, 1, 0.01, 1, 0.01])).toBeGreaterThan(0.85);
  });
  test("a line that goes with the valve is the valve's", () => {
    expect(shareOf("valve", [1, 1, 0.01, 0.02, 0.01])).toBeGreaterThan(0.9);
  });

  // source: symmetry. The valve never exchanged and the amplifier have the same prior and the same presence.
  test("what no reading tells apart is shared evenly", () => {
    const alike = designOf([on("regenerated", 57, { V1: "a" })], 0, all);
    const seen = [
      { sight: 0, amplitude: 1, noise: 1e-3 },
      { sight: 1, amplitude: 0.01, noise: 1e-3 },
    ];
    const samples = sampleLine(alike, seen, { samples: 2000, random: randomStream("even") }).powers;
    const [pickUp, amplifier, valve] = ["pick-up", "amplifier", "valve"].map((cause) =>
      alike.sources.findIndex((s) => s.cause === cause),
    );
    const wins = samples.filter((x) => x[amplifier!]! > x[valve!]!).length / samples.length;
    expect(wins).toBeGreaterThan(0.42);
    expect(wins).toBeLessThan(0.58);
    expect(samples.filter((x) => x[pickUp!]! > 0.01).length).toBe(0);
  });
});

// source: power series Σ (z²/4)ⁿ / n!², summed to double precision
test("Bessel function of order 0 equals its series", () => {
  for (const z of [0, 0.5, 2, 3.7, 3.8, 10, 40]) {
    let term = 1;
    let sum = 1;
    for (let n = 1; n < 400; n++) {
      term *= (z * z) / 4 / (n * n);
      sum += term;
    }
    expect(scaledBesselI0(z) / (sum * Math.exp(-z))).toBeCloseTo(1, 6);
  }
});
