import { BadInput, quote } from "../maths/badInput.ts";
import { humidityAtWall_pct } from "./air.ts";
import { type Coat, coatSurface_m_per_s } from "./coats.ts";
import type { Stretch } from "./course.ts";
import { emcDoubt_pct, equilibriumMoisture_pct } from "./emc.ts";
import type { Face } from "./face.ts";
import { plateWood } from "./heat.ts";

/** Air as a logger wrote it, hours counted from the beginning of its stage. */
export interface AirReading {
  readonly hour: number;
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

/**
 * One stage of a piece's life: any place, planned or not. The place is the shop's own word and changes nothing; what
 * the wood sees does.
 */
export interface LifeStage {
  readonly place: string;
  readonly hours: number;
  readonly temperature_C?: number;
  readonly humidity_pct?: number;
  /** In place of the humidity. */
  readonly emc_pct?: number;
  /** Air that drifted, in place of one temperature and humidity. */
  readonly log?: readonly AirReading[];
  /** 95 % half-width of the humidity; a logger's usual one where left out. */
  readonly humidityDoubt_pct?: number;
  /** Open faces; both where left out. With `one` the second face is closed. */
  readonly faces?: "both" | "one" | "none";
  readonly surface_m_per_s?: number;
  /** The second face lies on a plate of this temperature. */
  readonly plate_C?: number;
  /** The second face is warmed from within to this temperature, as a case's wall is. */
  readonly wall_C?: number;
  readonly coats?: readonly Coat[];
  /** Planed to this thickness as the stage begins, alike from both faces unless `taken_mm` says otherwise. */
  readonly machinedTo_mm?: number;
  /** Taken off the first and the second face as the stage begins. */
  readonly taken_mm?: readonly [number, number];
  /** Cut, shaped or oiled as the stage begins: its oven-dry mass is another from then on. */
  readonly massChanged?: boolean;
}

/** What the wood sees for a while, with how its equilibrium answers to what is doubted. */
export interface Spell {
  readonly stage: number;
  readonly hours: number;
  readonly wood_C: number;
  readonly faces: readonly [SpellFace, SpellFace];
  readonly taken_mm?: readonly [number, number];
}

export type SpellFace =
  | { readonly open: false }
  | {
      readonly open: true;
      readonly emc_pct: number;
      /** Change of the equilibrium for one standard deviation of the wood, of the logger. */
      readonly byWood_pct: number;
      readonly byAir_pct: number;
      readonly surface_m_per_s: number;
      readonly isCoated: boolean;
    };

/** Of a small electronic logger, 95 % half-width: common practice, no source. */
export const usualHumidityDoubt_pct = 3;

/**
 * 95 % half-width of a wood's own equilibrium about the table while it dries: a fifth of it, 1.25 to 2 %.
 *
 * @remarks One to two percent is what hysteresis, extractives and former heating come to (judgement): a wood that lies
 *   one percent off must lie well within.
 */
export function woodDoubt_pct(emc_pct: number): number {
  return Math.max(leastWoodDoubt_pct, emcDoubt_pct(emc_pct));
}

/** Below 6 % or so the wood's own doubt is the same everywhere. */
const leastWoodDoubt_pct = 1.25;

/** How far off the table a wood rests that lies so many standard deviations off, at 6 % or drier. */
export function woodOffset_pct(deviations: number): number {
  return (deviations * leastWoodDoubt_pct) / z975;
}

const z975 = 1.959963984540054;

/**
 * Stages as spells of steady air.
 *
 * @throws BadInput  a stage without air, a thickness planed away, a log out of order
 */
export function spellsOf(
  stages: readonly LifeStage[],
  thickness_mm: number,
  density_kg_m3 = 650,
  path = "stages",
): Spell[] {
  if (!(thickness_mm > 0)) {
    throw new BadInput("thickness_mm", quote(thickness_mm), "above 0", "measure the piece's thickness in millimetres");
  }
  if (stages.length === 0) throw new BadInput(path, "none", "at least one", "give the air that the piece stands in");
  let now_mm = thickness_mm;
  let coats: readonly Coat[] = [];
  const spells = stages.flatMap((stage, i) => {
    const here = `${path}[${i}]`;
    const taken = takenOf(stage, now_mm, here);
    if (taken) now_mm -= taken[0] + taken[1];
    if (taken) coats = [];
    if (stage.coats) coats = [...coats, ...stage.coats];
    const airs = airsOf(stage, here);
    return airs.map((air, j) => spell(stage, air, now_mm, density_kg_m3, coats, i, here, j === 0 ? taken : undefined));
  });
  if (spells.length > mostSpells.aLife) {
    throw new BadInput(
      path,
      `${spells.length} spells of air`,
      `at most ${mostSpells.aLife}`,
      "join stages of like air, or thin their logs",
    );
  }
  return spells;
}

interface Air {
  readonly hours: number;
  readonly temperature_C: number;
  readonly humidity_pct?: number;
  readonly emc_pct?: number;
}

function spell(
  stage: LifeStage,
  air: Air,
  thickness_mm: number,
  density_kg_m3: number,
  coats: readonly Coat[],
  index: number,
  path: string,
  taken_mm: readonly [number, number] | undefined,
): Spell {
  const open = (face_C: number, side: "first" | "second"): SpellFace => {
    const coat_m_per_s = coatSurface_m_per_s(coats, side);
    const own_m_per_s = stage.surface_m_per_s ?? Number.POSITIVE_INFINITY;
    const surface_m_per_s = 1 / (1 / own_m_per_s + 1 / coat_m_per_s);
    const isCoated = coat_m_per_s < Number.POSITIVE_INFINITY;
    if (air.emc_pct !== undefined) {
      return { open: true, emc_pct: air.emc_pct, byWood_pct: 0, byAir_pct: 0, surface_m_per_s, isCoated };
    }
    const at = (humidity_pct: number) => {
      const isSame = face_C === air.temperature_C;
      const there_pct = isSame ? humidity_pct : humidityAtWall_pct(air.temperature_C, humidity_pct, face_C);
      return equilibriumAt(face_C, there_pct, path);
    };
    const humidity_pct = air.humidity_pct!;
    const emc_pct = at(humidity_pct);
    const doubt_pct = stage.humidityDoubt_pct ?? usualHumidityDoubt_pct;
    const [low, high] = [Math.max(0, humidity_pct - doubt_pct), Math.min(100, humidity_pct + doubt_pct)];
    const byAir_pct = high > low ? ((at(high) - at(low)) * doubt_pct) / (high - low) / z975 : 0;
    return { open: true, emc_pct, byWood_pct: woodDoubt_pct(emc_pct) / z975, byAir_pct, surface_m_per_s, isCoated };
  };
  const base = { stage: index, hours: air.hours, ...(taken_mm ? { taken_mm } : {}) };
  const { temperature_C } = air;
  if (stage.plate_C !== undefined) {
    const { face_C, wood_C } = plateWood(stage.plate_C, temperature_C, thickness_mm, density_kg_m3);
    return { ...base, wood_C, faces: [open(face_C, "first"), { open: false }] };
  }
  if (stage.faces === "none") return { ...base, wood_C: temperature_C, faces: [{ open: false }, { open: false }] };
  const first = open(temperature_C, "first");
  if (stage.wall_C !== undefined) {
    return { ...base, wood_C: (temperature_C + stage.wall_C) / 2, faces: [first, open(stage.wall_C, "second")] };
  }
  const second: SpellFace = stage.faces === "one" ? { open: false } : open(temperature_C, "second");
  return { ...base, wood_C: temperature_C, faces: [first, second] };
}

function equilibriumAt(temperature_C: number, humidity_pct: number, path: string): number {
  try {
    return equilibriumMoisture_pct(temperature_C, humidity_pct);
  } catch (fault) {
    throw fault instanceof BadInput ? BadInput.at(`${path}.${fault.path}`, fault) : fault;
  }
}

function takenOf(stage: LifeStage, now_mm: number, path: string): readonly [number, number] | undefined {
  if (stage.taken_mm) {
    if (stage.taken_mm.some((one) => !(one >= 0)) || stage.taken_mm[0] + stage.taken_mm[1] >= now_mm) {
      throw new BadInput(
        `${path}.taken_mm`,
        quote(stage.taken_mm),
        `0 or more from each face, below ${now_mm} mm together`,
        "give what was planed off the first and the second face",
      );
    }
    return stage.taken_mm;
  }
  if (stage.machinedTo_mm === undefined) return undefined;
  if (!(stage.machinedTo_mm > 0 && stage.machinedTo_mm <= now_mm)) {
    throw new BadInput(
      `${path}.machinedTo_mm`,
      quote(stage.machinedTo_mm),
      `above 0, at most the ${now_mm} mm it had`,
      "give the thickness after machining",
    );
  }
  const each = (now_mm - stage.machinedTo_mm) / 2;
  return [each, each];
}

/** Steady air, or a log cut where it drifts; readings near each other become one spell. */
function airsOf(stage: LifeStage, path: string): Air[] {
  const { hours, log } = stage;
  if (!(hours >= 0 && hours < Number.POSITIVE_INFINITY)) {
    throw new BadInput(`${path}.hours`, quote(hours), "0 or more", "give the hours that the stage lasts");
  }
  if (!log || log.length === 0) {
    const { temperature_C, humidity_pct, emc_pct } = stage;
    if (temperature_C === undefined) throw missing(`${path}.temperature_C`, "a temperature, or a log of the air");
    if (emc_pct === undefined && humidity_pct === undefined && stage.faces !== "none") {
      throw missing(`${path}.humidity_pct`, "humidity_pct, emc_pct or a log of the air");
    }
    if (humidity_pct !== undefined) requireHumidity(humidity_pct, `${path}.humidity_pct`);
    return [
      {
        hours,
        temperature_C,
        ...(emc_pct !== undefined ? { emc_pct } : humidity_pct !== undefined ? { humidity_pct } : { emc_pct: 0 }),
      },
    ];
  }
  log.forEach(({ hour, humidity_pct }, i) => {
    requireHumidity(humidity_pct, `${path}.log[${i}].humidity_pct`);
    if (i > 0 && !(hour >= log[i - 1]!.hour)) {
      throw new BadInput(
        `${path}.log[${i}].hour`,
        quote(hour),
        `${log[i - 1]!.hour} or later, the reading before`,
        "give the log in the order of time",
      );
    }
  });
  return cutLog(log, hours);
}

function requireHumidity(humidity_pct: number, path: string): void {
  if (humidity_pct >= 0 && humidity_pct <= 100) return;
  throw new BadInput(path, quote(humidity_pct), "0 to 100", "give relative humidity in percent, 50 for one half");
}

function missing(path: string, allowed: string): BadInput {
  return new BadInput(path, "nothing", allowed, "give the air that the piece stands in");
}

/** How far readings within one spell may lie apart; twice that, and again, where a log would make too many spells. */
const alike = { temperature_C: 1, emc_pct: 0.15 } as const;
const mostSpells = { aLog: 60, aLife: 400 } as const;

function cutLog(log: readonly AirReading[], hours: number, coarse = 1): Air[] {
  const emcs = log.map(({ temperature_C, humidity_pct }) => equilibriumMoisture_pct(temperature_C, humidity_pct));
  // A reading holds from midway to the one before until midway to the next.
  const edges = [0, ...log.slice(1).map(({ hour }, i) => (hour + log[i]!.hour) / 2), hours].map((edge) =>
    Math.max(0, Math.min(hours, edge)),
  );
  const spells: { hours: number; warmth: number; damp: number; first: number }[] = [];
  log.forEach(({ temperature_C, humidity_pct }, i) => {
    const span_h = edges[i + 1]! - edges[i]!;
    if (span_h <= 0) return;
    const last = spells.at(-1);
    const isAlike =
      last !== undefined &&
      Math.abs(log[last.first]!.temperature_C - temperature_C) <= coarse * alike.temperature_C &&
      Math.abs(emcs[last.first]! - emcs[i]!) <= coarse * alike.emc_pct;
    if (isAlike) {
      last.hours += span_h;
      last.warmth += span_h * temperature_C;
      last.damp += span_h * humidity_pct;
    } else {
      spells.push({ hours: span_h, warmth: span_h * temperature_C, damp: span_h * humidity_pct, first: i });
    }
  });
  if (spells.length > mostSpells.aLog) return cutLog(log, hours, 2 * coarse);
  return spells.map((one) => ({
    hours: one.hours,
    temperature_C: one.warmth / one.hours,
    humidity_pct: one.damp / one.hours,
  }));
}

/** What is doubted of a life, in standard deviations from what is said: wood, logger, coats. */
export interface Shift {
  readonly wood: number;
  readonly air: number;
  /** Logarithm of the factor on every coat's resistance to passage. */
  readonly logCoat: number;
}

export const noShift: Shift = { wood: 0, air: 0, logCoat: 0 };

export function stretchesOf(spells: readonly Spell[], { wood, air, logCoat }: Shift): Stretch[] {
  const seen = (face: SpellFace): Face =>
    face.open
      ? {
          open: true,
          emc_pct: Math.max(0, face.emc_pct + wood * face.byWood_pct + air * face.byAir_pct),
          surface_m_per_s: face.isCoated ? face.surface_m_per_s * Math.exp(logCoat) : face.surface_m_per_s,
        }
      : face;
  return spells.map(({ hours, wood_C, faces, taken_mm }) => ({
    hours,
    wood_C,
    faces: [seen(faces[0]), seen(faces[1])],
    ...(taken_mm ? { taken_mm } : {}),
  }));
}
