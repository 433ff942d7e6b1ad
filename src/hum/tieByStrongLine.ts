import type { Setting } from "./cause.ts";
import { usualScatter } from "./linePosterior.ts";
import type { LineReading } from "./lineReading.ts";

/** A line must be known to this share of its level to hold phases. */
const strong = 0.01;
/** Its level may not move by more between the recordings, or what makes it has changed. */
const steady = 0.15;
/** A phase known worse than this says nothing. */
const most_rad = 0.5;

/**
 * Ties phases of recordings that no reference channel ties, by one strong line that the exchanged valves can't reach.
 *
 * Every restart of a supply shifts time, so phases of one recording compare with another's only as c·e^{−jkφ/m}, φ
 * being the phase of a line of order m that stands alike in both: one in a channel where, by the feeds, nothing was
 * exchanged. Lines of other channels whose order is a multiple of m then compare in complex amplitude.
 *
 * @param reaches  whether a valve position can reach a channel
 * @returns the readings, those that could be tied with their phase, its doubt and their tie
 */
export function tieByStrongLine(
  readings: readonly LineReading[],
  settings: readonly Setting[],
  reaches: (position: string, channel: string) => boolean,
): readonly LineReading[] {
  const groups = new Map<string, number[]>();
  for (const [r, { supply, offset }] of settings.entries()) {
    // Nobody knows how a locked supply stands to the building's field after a restart.
    if (supply.source === "regenerated" && !offset) continue;
    const key = `${supply.source} ${supply.frequency_Hz}`;
    groups.set(key, [...(groups.get(key) ?? []), r]);
  }
  const tied = new Map<LineReading, LineReading>();
  for (const [key, recordings] of groups) {
    if (recordings.length < 2) continue;
    const inGroup = readings.filter((line) => recordings.includes(line.recording) && line.family !== "building");
    const found = strongLine(inGroup, recordings, settings, reaches);
    if (!found) continue;
    for (const line of inGroup) {
      const { channel, order, phase_rad, angle_rad } = line;
      if (channel === found.channel || phase_rad !== undefined || angle_rad === undefined) continue;
      if (order % found.order !== 0) continue;
      const reference = found.lines.get(line.recording)!;
      const turns = order / found.order;
      const sd_rad =
        turns * Math.hypot(usualScatter.contact / Math.SQRT2, reference.doubt_Vrms / 1.96 / reference.level_Vrms);
      if (sd_rad > most_rad) continue;
      tied.set(line, {
        ...line,
        phase_rad: angle_rad - turns * reference.angle_rad!,
        phaseSd_rad: sd_rad,
        tie: `order ${found.order} in ${found.channel}, ${key}`,
      });
    }
  }
  return readings.map((line) => tied.get(line) ?? line);
}

/** The best known of the lines that could hold the phases, the lowest order first. */
function strongLine(
  readings: readonly LineReading[],
  recordings: readonly number[],
  settings: readonly Setting[],
  reaches: (position: string, channel: string) => boolean,
) {
  const channels = [...new Set(readings.map(({ channel }) => channel))].filter((channel) => {
    const [first, ...rest] = recordings.map((r) =>
      Object.entries(settings[r]!.valves)
        .flatMap(([position, valve]) => (reaches(position, channel) ? [`${position} ${valve}`] : []))
        .join(),
    );
    return rest.every((valves) => valves === first);
  });
  for (const order of [1, 2]) {
    for (const channel of channels) {
      const lines = new Map(
        readings
          .filter((line) => line.channel === channel && line.order === order && line.stands && !line.crowded)
          .filter((line) => line.angle_rad !== undefined && line.doubt_Vrms < strong * line.level_Vrms)
          .map((line) => [line.recording, line] as const),
      );
      if (lines.size < recordings.length) continue;
      const levels = [...lines.values()].map(({ level_Vrms }) => level_Vrms);
      if (Math.max(...levels) < (1 + steady) * Math.min(...levels)) return { channel, order, lines };
    }
  }
  return undefined;
}
