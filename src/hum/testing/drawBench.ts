import { weightA } from "../../bench/weighting.ts";
import type { Random } from "../../maths/random.ts";
import type { CauseName, Setting, Supply } from "../cause.ts";

/** A bench whose truth is known: what each source puts out at each order, and how each recording was made. */
export interface Bench {
  readonly building_Hz: number;
  readonly feeds: Readonly<Record<string, readonly string[]>>;
  readonly channels: readonly string[];
  readonly settings: readonly Setting[];
  readonly orders: readonly number[];
  /** Phasor [V peak] of a source at an order, in a channel, before scatter and restarts. Key as `keyOf` makes it. */
  readonly phasors: ReadonlyMap<string, readonly Phasor[]>;
  /** Noise density [V²/Hz], one-sided, per channel. */
  readonly noise_V2_per_Hz: number;
  readonly truth: Readonly<Record<string, Truth>>;
  readonly mishap?: Mishap;
}

export interface Phasor {
  readonly re: number;
  readonly im: number;
}

export interface Truth {
  readonly cause: CauseName;
  readonly position?: string;
  readonly valve?: string;
  /** Of the A-weighted hum in the first recording on the building's supply. */
  readonly share: number;
  /** Of the cause that comes next. */
  readonly second: number;
  /** The recordings hold the contrast that the cause needs. */
  readonly decidable: boolean;
  /** Causes whose pattern of presence equals the true one's. */
  readonly alike: readonly CauseName[];
}

export function keyOf(channel: string, cause: CauseName, position = "", valve = ""): string {
  return [channel, cause, position, valve].join("|");
}

type SourceOf = { cause: CauseName; position?: string; valve?: string };

/** Typical spectra (peak amplitude against order), each told by the cause's physics. */
const shapes: Readonly<Record<CauseName, (order: number) => number>> = {
  // Flat-topped mains: 3rd, 5th, 7th and 11th, 13th strongest, brought in by capacitance.
  mains: (k) => (k % 2 === 1 ? (k === 1 ? 0.3 : 1 / Math.sqrt(k)) : 0.03),
  "pick-up": (k) => (k % 2 === 1 ? 1 / k : 0.05 / k),
  // Ripple in even orders, heater wiring in the first.
  amplifier: (k) => (k === 1 ? 0.6 : k % 2 === 0 ? 2 / k : 0.1 / k),
  valve: (k) => (k % 2 === 1 ? 1 : 0.5) / k ** 1.3,
};

/** How a channel's hum is made up. */
export interface Make {
  /** One cause 12 dB and more over the others, or two or three of them within 8 dB. */
  readonly causes: "one" | "several";
  /** Spectra as their physics make them, or any fall with order and any order left out, whatever the cause. */
  readonly spectra: "typical" | "any";
  /** What else changed between recordings, for which no valve is to blame. */
  readonly mishap?: "gain" | "warm-up" | "lead";
}

/** What else changed, one entry a recording: factors on everything, on what the unit makes, on the building's field. */
export interface Mishap {
  readonly gain: readonly number[];
  readonly own: readonly number[];
  readonly field: readonly number[];
}

/**
 * Draws a bench at random: one cause well over the others in each channel unless several are asked for, valves
 * exchanged in ways that workshops do, settings that hold the needed contrast in most draws and lack it in the rest.
 */
export function drawBench(random: Random, make: Make = { causes: "one", spectra: "typical" }): Bench {
  const building_Hz = random.uniform() < 0.7 ? 50 : 60;
  const positions = ["V1", "V2", "V3"].slice(0, 1 + random.integer(3));
  const channels = random.uniform() < 0.6 ? ["left", "right"] : ["left"];
  const feeds = drawFeeds(random, positions, channels);
  const settings = drawSettings(random, building_Hz, positions);
  const orders = Array.from({ length: 24 }, (_, i) => i + 1);
  const reference =
    settings[
      Math.max(
        0,
        settings.findIndex((s) => s.supply.source === "building"),
      )
    ]!;

  const phasors = new Map<string, readonly Phasor[]>();
  const truth: Record<string, Truth> = {};
  for (const channel of channels) {
    const reaching = positions.filter((p) => feeds[p]!.includes(channel));
    const valves = new Map<string, SourceOf>();
    for (const setting of settings) {
      for (const position of reaching) {
        const valve = setting.valves[position]!;
        valves.set(`${position}|${valve}`, { cause: "valve", position, valve });
      }
    }
    const all: SourceOf[] = [
      ...(settings.some((s) => s.supply.source === "building") ? [{ cause: "mains" as const }] : []),
      { cause: "pick-up" },
      { cause: "amplifier" },
      ...valves.values(),
    ];
    const fitted = all.filter((s) => presentIn(reference, s));
    const kinds = [...new Set(fitted.map((s) => s.cause))];
    const kind = kinds[random.integer(kinds.length)]!;
    const ofKind = fitted.filter((s) => s.cause === kind);
    const culprit = ofKind[random.integer(ofKind.length)]!;

    const level = 10 ** (-4.5 + 1.5 * random.uniform());
    const powers = new Map<SourceOf, number>();
    const beside = make.causes === "one" ? new Set<SourceOf>() : drawBeside(random, fitted, culprit);
    for (const source of all) {
      const shape = make.spectra === "any" ? anyShape(random) : shapes[source.cause];
      const spectrum = drawSpectrum(random, shape, orders, building_Hz);
      const below_dB = source === culprit ? 0 : beside.has(source) ? 8 * random.uniform() : 12 + 30 * random.uniform();
      const gain = (level * 10 ** (-below_dB / 20)) / Math.sqrt(spectrum.power);
      const at = spectrum.phasors.map(({ re, im }) => ({ re: re * gain, im: im * gain }));
      phasors.set(keyOf(channel, source.cause, source.position, source.valve), at);
      powers.set(source, spectrum.power * gain ** 2);
    }
    const total = fitted.reduce((sum, s) => sum + powers.get(s)!, 0);
    const alike = all.filter((s) => s !== culprit && samePattern(settings, s, culprit));
    const [, second = 0] = fitted.map((s) => powers.get(s)! / total).toSorted((a, b) => b - a);
    truth[channel] = {
      ...culprit,
      share: powers.get(culprit)! / total,
      second,
      decidable: alike.length === 0,
      alike: [...new Set(alike.filter((s) => fitted.includes(s)).map((s) => s.cause))],
    };
  }
  return {
    building_Hz,
    feeds,
    channels,
    settings,
    orders,
    phasors,
    noise_V2_per_Hz: 10 ** (-15 + random.uniform()),
    truth,
    ...(make.mishap && { mishap: drawMishap(random.fork("mishap"), settings, make.mishap) }),
  };
}

/**
 * A valve with 4 to 26 dB less gain wherever one was exchanged, as a worn spare or another volume setting brings; hum
 * that falls by 1 to 4 dB a recording while the unit warms, levelling out; or a lead laid otherwise at one opening,
 * which leaves a tenth to a half of the field.
 */
function drawMishap(random: Random, settings: readonly Setting[], kind: NonNullable<Make["mishap"]>): Mishap {
  const even = settings.map(() => 1);
  const isOpened = settings.map((s) => Object.keys(s.valves).some((p) => s.valves[p] !== settings[0]!.valves[p]));
  if (kind === "gain") {
    return {
      gain: isOpened.map((opened) => (opened ? 10 ** (-(4 + 22 * random.uniform()) / 20) : 1)),
      own: even,
      field: even,
    };
  }
  if (kind === "warm-up") {
    const fall_dB = 1 + 3 * random.uniform();
    return {
      gain: even,
      own: settings.map((_, i) => 10 ** ((-3 * fall_dB * (1 - Math.exp(-i / 2))) / 20)),
      field: even,
    };
  }
  const moved = Math.max(0, isOpened.indexOf(true));
  const left = 0.1 + 0.4 * random.uniform();
  return { gain: even, own: even, field: settings.map((_, i) => (isOpened[i] && i >= moved ? left : 1)) };
}

/** The truth of a channel where only some recordings may be compared, the others having been made on an unsound supply. */
export function truthAmong(bench: Bench, channel: string, kept: readonly number[]): Truth {
  const truth = bench.truth[channel]!;
  const settings = kept.map((r) => bench.settings[r]!);
  const all = [...bench.phasors.keys()].flatMap((key): SourceOf[] => {
    const [of, cause, position, valve] = key.split("|") as [string, CauseName, string, string];
    return of === channel ? [{ cause, ...(cause === "valve" && { position, valve }) }] : [];
  });
  const self = (s: SourceOf) => s.cause === truth.cause && s.position === truth.position && s.valve === truth.valve;
  const culprit = all.find(self)!;
  const alike = all.filter((s) => s !== culprit && samePattern(settings, s, culprit));
  return { ...truth, decidable: alike.length === 0, alike: [...new Set(alike.map((s) => s.cause))] };
}

/** Whether a source sounds in a setting: per family of lines, the supply's and the building's. */
function presentIn(setting: Setting, source: SourceOf): boolean {
  if (source.cause === "mains") return setting.supply.source === "building";
  if (source.cause === "valve") return setting.valves[source.position!] === source.valve;
  return true;
}

function samePattern(settings: readonly Setting[], a: SourceOf, b: SourceOf): boolean {
  return settings.every((setting) => {
    const apart = setting.offset && (a.cause === "pick-up") !== (b.cause === "pick-up");
    return !apart && presentIn(setting, a) === presentIn(setting, b);
  });
}

/** One or two more causes of the same order of loudness. */
function drawBeside(random: Random, fitted: readonly SourceOf[], culprit: SourceOf): ReadonlySet<SourceOf> {
  const others = fitted.filter((s) => s !== culprit);
  const count = Math.min(others.length, 1 + random.integer(2));
  return new Set(Array.from({ length: count }, () => others[random.integer(others.length)]!));
}

/** A fall with order of 0 to 40 dB a decade and a stray of its own; in one of three even or odd orders are left out. */
function anyShape(random: Random): (order: number) => number {
  const fall = 2 * random.uniform();
  const leftOut = random.integer(6);
  return (order) => (leftOut < 2 && order > 1 && order % 2 === leftOut ? 0.02 : 1) / order ** fall;
}

function drawSpectrum(
  random: Random,
  shape: (order: number) => number,
  orders: readonly number[],
  building_Hz: number,
) {
  let power = 0;
  const phasors = orders.map((order) => {
    const amplitude = shape(order) * 10 ** (random.normal(0, 5) / 20);
    const angle = 2 * Math.PI * random.uniform();
    power += (amplitude ** 2 / 2) * weightA(order * building_Hz) ** 2;
    return { re: amplitude * Math.cos(angle), im: amplitude * Math.sin(angle) };
  });
  return { phasors, power };
}

function drawFeeds(random: Random, positions: readonly string[], channels: readonly string[]) {
  const apart = random.uniform() < 0.4;
  return Object.fromEntries(
    positions.map((position, i) => [
      position,
      apart && channels.length > 1 ? (i === 2 ? [...channels] : [channels[i % channels.length]!]) : [...channels],
    ]),
  );
}

/** Recordings as a workshop makes them, sometimes one too few. */
function drawSettings(random: Random, building_Hz: number, positions: readonly string[]): Setting[] {
  const original = Object.fromEntries(positions.map((p, i) => [p, `T-${100 + i}`]));
  const building: Supply = { source: "building", frequency_Hz: building_Hz };
  const offsets_Hz = building_Hz === 50 ? [57, 60.5, 55.5, 58] : [67, 68.5, 66];
  const offset: Supply = { source: "regenerated", frequency_Hz: offsets_Hz[random.integer(offsets_Hz.length)]! };
  const locked: Supply = { source: "regenerated", frequency_Hz: building_Hz };
  const setting = (supply: Supply, valves: Readonly<Record<string, string>>): Setting => ({
    supply,
    valves,
    offset: supply.frequency_Hz !== building_Hz,
  });

  const settings = [setting(building, original)];
  const style = random.uniform();
  const clean = random.uniform() < 0.8 ? offset : locked;
  if (style < 0.1) {
    if (random.uniform() < 0.5) settings.push(setting(building, original));
    return settings;
  }
  if (style < 0.25) return [...settings, setting(clean, original)];
  if (style > 0.95) settings.pop();
  if (style > 0.4) settings.push(setting(clean, original));
  const supply = style > 0.4 ? clean : building;
  const manner = random.uniform();
  if (manner < 0.15 && positions.length > 1) {
    const [a, b] = positions as [string, string];
    return [...settings, setting(supply, { ...original, [a]: original[b]!, [b]: original[a]! })];
  }
  if (manner < 0.3 && positions.length > 1) {
    return [...settings, setting(supply, Object.fromEntries(positions.map((p, i) => [p, `T-${200 + i}`])))];
  }
  const exchanged = manner < 0.8 ? positions : positions.slice(0, 1 + random.integer(positions.length));
  const cumulative = random.uniform() < 0.3;
  let standing: Record<string, string> = original;
  for (const [i, position] of exchanged.entries()) {
    const next = { ...(cumulative ? standing : original), [position]: `T-${200 + i}` };
    standing = next;
    settings.push(setting(supply, next));
  }
  if (style > 0.4 && style < 0.55) settings.push(setting(offset, standing));
  return settings;
}
