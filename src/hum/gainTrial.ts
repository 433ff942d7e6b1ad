import type { Setting } from "./cause.ts";
import type { LineReading } from "./lineReading.ts";

/** How far everything in a channel moved against a recording made with more or less gain. */
export interface GainChange {
  /** The recording it is held against. */
  readonly since: number;
  /** Median over the lines that stood there; a limit where they vanished. */
  readonly lines_dB: number;
  readonly hiss_dB: number;
  /** Median over the building's lines on an offset supply. */
  readonly building_dB?: number;
}

/** Hiss that moves by less may be the valve's own, or chance. */
const leastHiss_dB = 4;
/** Contacts, the new valve's own hum and the recorder's own noise part lines and hiss by about this much, and by this share. */
const apart_dB = 2.5;
const apartShare = 0.35;
/** What the unit makes itself changes with its supply too. */
const apartBySupply_dB = 3;
/** A change of gain shows in the building's lines alike; contacts scatter by about this. */
const alike_dB = 1.2;
const leastLines_dB = 3;
/** A line known worse than this share of its level is left out. */
const sharp = 0.1;
/** Orders where hiss is read: above the flicker, where few lines are strong. */
const hissFrom = 5;

/**
 * Tells a changed gain from a cured hum: a new valve with less gain, a volume control moved, or a recorder set otherwise
 * takes the hum of a channel down with its hiss, or with the building's lines. A valve that hummed takes only its own
 * lines along.
 *
 * Each recording is held against an earlier one on the same supply, else against the reference. A change is found where
 * the hiss moved by 4 dB or more and the hum with it, or where on an offset supply the building's lines and the
 * supply's moved alike.
 *
 * @param readings   of one channel, all recordings
 * @param reference  the recording the verdict is about
 * @param used_s     length of each recording that was read
 * @returns one entry a recording; undefined where nothing speaks for it
 * @remarks A recorder whose own noise covers the unit's hiss hides a change of gain.
 */
export function gainChanges(
  readings: readonly LineReading[],
  settings: readonly Setting[],
  reference: number,
  used_s: readonly number[],
): readonly (GainChange | undefined)[] {
  const of = (recording: number) => readings.filter((line) => line.recording === recording);
  const found: (GainChange | undefined)[] = [];
  for (const [r, { supply }] of settings.entries()) {
    const now = of(r);
    const sameSupply = settings.findIndex(
      (other, i) =>
        i < r &&
        !found[i] &&
        other.supply.source === supply.source &&
        other.supply.frequency_Hz === supply.frequency_Hz &&
        of(i).length > 0,
    );
    const since = sameSupply >= 0 ? sameSupply : reference;
    const before = of(since);
    found.push(
      since === r || r === reference || now.length === 0 || before.length === 0
        ? undefined
        : changeBetween(before, now, since, used_s[r]! / used_s[since]!, sameSupply >= 0),
    );
  }
  return found;
}

function changeBetween(
  before: readonly LineReading[],
  now: readonly LineReading[],
  since: number,
  longer: number,
  isSameSupply: boolean,
): GainChange | undefined {
  const ofUnit = (line: LineReading) => line.family !== "building";
  const lines_dB = isSameSupply
    ? median(lineChanges_dB(before.filter(ofUnit), now.filter(ofUnit)))
    : median(lineChanges_dB(summedByOrder(before), summedByOrder(now)));
  const hiss_dB = hissChange_dB(before.filter(ofUnit), now.filter(ofUnit), longer);
  if (lines_dB === undefined || hiss_dB === undefined) return undefined;
  const field = isSameSupply
    ? lineChanges_dB(
        before.filter((line) => !ofUnit(line)),
        now.filter((line) => !ofUnit(line) && line.stands),
      )
    : [];
  const building_dB = field.length >= 2 ? median(field) : undefined;
  const most_dB = apart_dB + apartShare * Math.abs(hiss_dB) + (isSameSupply ? 0 : apartBySupply_dB);
  const byHiss = Math.abs(hiss_dB) >= leastHiss_dB && Math.abs(lines_dB - hiss_dB) <= most_dB;
  const byBuilding =
    building_dB !== undefined &&
    Math.abs(lines_dB) >= leastLines_dB &&
    Math.abs(building_dB - lines_dB) <= alike_dB &&
    field.every((change) => Math.abs(change - building_dB) <= 2 * alike_dB);
  if (!byHiss && !byBuilding) return undefined;
  return { since, lines_dB, hiss_dB, ...(building_dB !== undefined && { building_dB }) };
}

/** By how much each line that stood before moved; a vanished one at least as far as to its floor. */
function lineChanges_dB(before: readonly LineReading[], after: readonly LineReading[]): readonly number[] {
  return before.flatMap((line) => {
    if (!line.stands || line.crowded || line.doubt_Vrms > sharp * line.level_Vrms) return [];
    const now = after.find(({ order, crowded }) => order === line.order && !crowded);
    if (!now) return [];
    return [
      20 * Math.log10((now.stands ? now.level_Vrms : Math.max(now.level_Vrms, now.doubt_Vrms)) / line.level_Vrms),
    ];
  });
}

/** Both families of each order as one line, for recordings on different supplies. */
function summedByOrder(lines: readonly LineReading[]): readonly LineReading[] {
  return [...new Set(lines.map(({ order }) => order))].map((order) => {
    const same = lines.filter((line) => line.order === order);
    const first = same.find((line) => line.family !== "building") ?? same[0]!;
    return {
      ...first,
      level_Vrms: Math.hypot(...same.map((line) => line.level_Vrms)),
      stands: same.some((line) => line.stands),
      crowded: same.some((line) => line.crowded),
    };
  });
}

/** Doubts of lines are those of the hiss beside them: its density goes as doubt² · T. */
function hissChange_dB(before: readonly LineReading[], after: readonly LineReading[], longer: number) {
  const changes = before.flatMap((line) => {
    const now = after.find(({ order }) => order === line.order);
    if (!now || line.order < hissFrom || !(line.doubt_Vrms > 0) || !(now.doubt_Vrms > 0)) return [];
    return [20 * Math.log10(now.doubt_Vrms / line.doubt_Vrms) + 10 * Math.log10(longer)];
  });
  return median(changes);
}

function median(values: readonly number[]): number | undefined {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted.length === 0 ? undefined : (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
}
