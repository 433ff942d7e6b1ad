import type { Setting } from "./cause.ts";
import type { LineReading } from "./lineReading.ts";

/** How far everything in a channel moved between two recordings that differ in their valves at most. */
export interface GainChange {
  /** Of the two, the earlier one. */
  readonly since: number;
  /** Median over the lines of the unit's own supply; a limit where they vanished. */
  readonly lines_dB: number;
  readonly hiss_dB?: number;
  readonly building_dB?: number;
}

/** Smaller changes accuse nobody. */
const least_dB = 2.5;
/** Contacts scatter and chance moves lines by about this; a changed gain moves all of them alike. */
const alike_dB = 1.2;
/** Hiss that moves with the hum to this, and by so much, speaks for gain. */
const hissAlike_dB = 2.2;
const leastHiss_dB = 4;
/** A line known worse than this share of its level is left out. */
const sharp = 0.1;
/** Orders where hiss is read: above the flicker, where few lines are strong. */
const hissFrom = 5;

/**
 * Tells a changed gain from a cured hum: a new valve with less gain, a volume control moved, or a recorder set
 * otherwise takes all lines of a channel down alike, and its hiss or the building's lines with them. A valve that hummed
 * takes only its own lines along.
 *
 * Each recording is held against the first one on the same supply. A change is found where the lines that stand in both
 * moved alike and the hiss, or on an offset supply the lines of the building, moved with them.
 *
 * @param readings  of one channel, all recordings
 * @param used_s    length of each recording that was read
 * @returns one entry a recording; undefined where nothing speaks for it
 */
export function gainChanges(
  readings: readonly LineReading[],
  settings: readonly Setting[],
  used_s: readonly number[],
): readonly (GainChange | undefined)[] {
  const has = new Set(readings.map(({ recording }) => recording));
  return settings.map(({ supply }, r) => {
    if (!has.has(r)) return undefined;
    const since = settings.findIndex(
      (other, i) =>
        has.has(i) && other.supply.source === supply.source && other.supply.frequency_Hz === supply.frequency_Hz,
    );
    if (since === r) return undefined;
    const of = (recording: number, own: boolean) =>
      readings.filter((line) => line.recording === recording && (line.family !== "building") === own);
    const own = changesOf(of(since, true), of(r, true));
    const lines_dB = median(own.changes_dB);
    if (lines_dB === undefined || Math.abs(lines_dB) < least_dB || !own.isAlike) return undefined;
    const hiss_dB = hissChange_dB(of(since, true), of(r, true), used_s[r]! / used_s[since]!);
    const outside = changesOf(of(since, false), of(r, false));
    const building_dB = outside.standing >= 2 ? median(outside.changes_dB) : undefined;
    // The recorder's own noise keeps hiss from falling as far as the hum; nothing makes it fall further.
    const byHiss =
      hiss_dB !== undefined &&
      Math.abs(hiss_dB) >= leastHiss_dB &&
      Math.sign(hiss_dB) === Math.sign(lines_dB) &&
      Math.abs(hiss_dB) <= Math.abs(lines_dB) + hissAlike_dB;
    const byBuilding = building_dB !== undefined && outside.isAlike && Math.abs(building_dB - lines_dB) <= alike_dB;
    if (!byHiss && !byBuilding) return undefined;
    return {
      since,
      lines_dB,
      ...(hiss_dB !== undefined && { hiss_dB }),
      ...(building_dB !== undefined && { building_dB }),
    };
  });
}

/** By how much each line that stood before moved, a vanished one at most to its floor; and whether all moved alike. */
function changesOf(before: readonly LineReading[], after: readonly LineReading[]) {
  const changes_dB: number[] = [];
  const inBoth: number[] = [];
  for (const line of before) {
    if (!line.stands || line.crowded || line.doubt_Vrms > sharp * line.level_Vrms) continue;
    const now = after.find(({ order, crowded }) => order === line.order && !crowded);
    if (!now) continue;
    const stands = now.stands && now.doubt_Vrms < 2 * sharp * now.level_Vrms;
    const level_Vrms = stands ? now.level_Vrms : Math.max(now.level_Vrms, now.doubt_Vrms);
    const change_dB = 20 * Math.log10(level_Vrms / line.level_Vrms);
    changes_dB.push(change_dB);
    if (stands) inBoth.push(change_dB);
  }
  const middle = median(inBoth);
  const isAlike = middle === undefined || median(inBoth.map((change) => Math.abs(change - middle)))! <= alike_dB;
  return { changes_dB, isAlike, standing: inBoth.length };
}

/** Doubts of lines are those of the hiss beside them: its density is as doubt² · T. */
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
