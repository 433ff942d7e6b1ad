import { describe, expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import type { Setting } from "./cause.ts";
import { designOf } from "./design.ts";
import { type Seen, sampleLine } from "./linePosterior.ts";
import type { LineReading } from "./lineReading.ts";
import { repeatsIn, scatterFrom } from "./reseating.ts";
import { tieByStrongLine } from "./tieByStrongLine.ts";
import { sharesIn } from "./verdict.ts";

const on = (source: "building" | "regenerated", frequency_Hz: number, valves: Record<string, string>): Setting => ({
  supply: { source, frequency_Hz },
  offset: frequency_Hz !== 50,
  valves,
});
const settings = [
  on("building", 50, { V1: "a", V2: "b" }),
  on("regenerated", 57, { V1: "a", V2: "b" }),
  on("regenerated", 57, { V1: "a", V2: "c" }),
];

describe("phases that are tied", () => {
  const design = designOf([on("building", 50, { V1: "a" }), on("building", 50, { V1: "c" })], 0, () => true);
  const valve = design.sources.findIndex((s) => s.cause === "valve" && s.valve === "a");
  // A valve of 0.5 V at right angles to a hum of 1 V: √1.25 with it, 1 without.
  const seen = (isTied: boolean): Seen[] =>
    [
      { amplitude: Math.hypot(1, 0.5), phase_rad: Math.atan2(0.5, 1) },
      { amplitude: 1, phase_rad: 0 },
    ].map(({ amplitude, phase_rad }, sight) => ({
      sight,
      amplitude,
      noise: 1e-3,
      ...(isTied && { phase_rad, tie: "mains" }),
    }));
  /** Share of explanations in which one of the two valves has at least a fifth of the stronger reading. */
  const valveHums = (isTied: boolean) => {
    const { powers } = sampleLine(design, seen(isTied), { samples: 800, random: randomStream("tied") });
    const valves = design.sources.flatMap((source, s) => (source.cause === "valve" ? [s] : []));
    return powers.filter((at) => valves.some((s) => Math.sqrt(at[s]!) > 0.2)).length / powers.length;
  };

  // source: complex least squares by hand: the readings differ by 0.5j, 45 % of the stronger, which four per cent of
  // contact scatter does not make; their amplitudes differ by 0.12 alone, which a valve of a tenth explains as well
  test("measure in complex amplitude what power alone leaves open", () => {
    expect(valveHums(true)).toBeGreaterThan(0.75);
    expect(valveHums(false)).toBeLessThan(0.5);
  });

  // property: how a tie as a whole stands is not known, so turning all its phases changes nothing but chance, which
  // moves the mean share by 0.03 from seed to seed
  test("say nothing as a whole, only against one another", () => {
    const share = (turn: number) => {
      const turned = seen(true).map((reading) => ({ ...reading, phase_rad: reading.phase_rad! + turn }));
      const shares = ["x", "y", "z"].map((seed) => {
        const { powers } = sampleLine(design, turned, { samples: 400, random: randomStream(seed) });
        return sharesIn(powers, design.fitted, design)[design.fitted.indexOf(valve)]!.share;
      });
      return shares.reduce((sum, one) => sum + one, 0) / shares.length;
    };
    expect(Math.abs(share(0) - share(2))).toBeLessThan(0.09);
  });
});

describe("one strong line", () => {
  const reading = (recording: number, channel: string, order: number, angle_rad: number, more = {}): LineReading => ({
    recording,
    channel,
    order,
    family: "supply",
    frequency_Hz: 57 * order,
    level_Vrms: 1e-4,
    doubt_Vrms: 1e-7,
    stands: true,
    crowded: false,
    angle_rad,
    ...more,
  });
  const feeds: Record<string, readonly string[]> = { V1: ["right"], V2: ["left"] };
  const reaches = (position: string, channel: string) => feeds[position]!.includes(channel);
  // The third recording starts 0.7 rad of the fundamental later; V2, exchanged in it, reaches the left channel alone.
  const table = [
    reading(1, "right", 1, 0.2),
    reading(2, "right", 1, 0.2 + 0.7),
    reading(1, "left", 3, 1.1),
    reading(2, "left", 3, 1.1 + 3 * 0.7),
  ];
  const phases = (readings: readonly LineReading[], reach = reaches) =>
    tieByStrongLine(readings, settings, reach)
      .filter(({ channel }) => channel === "left")
      .map(({ phase_rad }) => phase_rad);

  // source: c·e^{−jkφ}: a start later by 0.7 rad turns order 3 by 2.1 rad and the reference by 0.7; the difference stays
  test("in a channel that the exchanged valve can't reach ties the other's phases", () => {
    const [first, second] = phases(table);
    expect(first).toBeCloseTo(1.1 - 3 * 0.2, 9);
    expect(second).toBeCloseTo(first!, 9);
    const [tied] = tieByStrongLine(table, settings, reaches).filter(({ channel }) => channel === "left");
    expect(tied!.phaseSd_rad).toBeGreaterThan(0.05);
    expect(tied!.phaseSd_rad).toBeLessThan(0.15);
  });

  test("that the valve reaches, that moved, or that is weak ties nothing", () => {
    expect(phases(table, () => true)).toEqual([undefined, undefined]);
    const changed = (more: object) => phases(table.map((line, i) => (i === 1 ? { ...line, ...more } : line)));
    expect(changed({ level_Vrms: 1.3e-4 })).toEqual([undefined, undefined]);
    expect(changed({ doubt_Vrms: 1e-5 })).toEqual([undefined, undefined]);
  });

  test("of the second order ties even orders alone", () => {
    const second = table.map((line) => (line.channel === "right" ? { ...line, order: 2 } : line));
    expect(phases(second)).toEqual([undefined, undefined]);
    const even = second.map((line) => (line.channel === "left" ? { ...line, order: 4 } : line));
    expect(phases(even).every((phase) => phase !== undefined)).toBe(true);
  });
});

describe("reseating", () => {
  const repeated = [...settings, settings[1]!, settings[1]!, settings[1]!, settings[1]!];
  const design = designOf(repeated, 0, () => true);
  const readingsWith = (sd: number, seed: string) => {
    const random = randomStream(seed);
    const own = design.sights.flatMap((sight, j) => (sight.family === "supply" ? [j] : []));
    return own.flatMap((sight) => {
      const contact = Math.exp(random.normal(0, sd));
      return [1, 2, 3].map((order) => ({ sight, order, level_Vrms: (1e-4 * contact) / order, doubt_Vrms: 1e-8 }));
    });
  };
  const mean = (sd: number) => {
    const found = Array.from(
      { length: 40 },
      (_, i) => scatterFrom([repeatsIn(design, readingsWith(sd, `${i}`))]).contact ** 2,
    );
    return Math.sqrt(found.reduce((sum, v) => sum + v, 0) / found.length);
  };

  // source: by hand, σ² = (4·0.04² + 4·s²)/8 with four degrees of freedom from five repeats, E s² = 0.12² or 0
  test("has a variance of its own, drawn to what repeats show", () => {
    expect(mean(0.12)).toBeCloseTo(Math.sqrt((4 * 0.04 ** 2 + 4 * 0.12 ** 2) / 8), 1);
    expect(mean(0.12)).toBeGreaterThan(0.075);
    expect(mean(0)).toBeCloseTo(0.04 / Math.SQRT2, 6);
  });

  test("without repeats is taken as usual", () => {
    const alone = designOf(settings, 0, () => true);
    expect(
      scatterFrom([repeatsIn(alone, [{ sight: 0, order: 1, level_Vrms: 1, doubt_Vrms: 1e-3 }])]).contact,
    ).toBeCloseTo(0.04, 12);
  });
});
