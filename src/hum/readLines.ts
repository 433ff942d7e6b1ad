import type { MainsFit } from "../bench/mains.ts";
import { mainsBesideStrays } from "../bench/strayTones.ts";
import { isOffset } from "./checkTraceInput.ts";
import type { LineReading } from "./lineReading.ts";
import {
  beginningOf,
  type HumRecording,
  isReference,
  mainsChannel,
  sizeOf,
  supplyChannel,
  type TraceInput,
} from "./traceInput.ts";

export interface RecordingLines {
  readonly readings: readonly LineReading[];
  /** Mean frequency of the unit's supply and of the building as the recorder saw them. */
  readonly supply_Hz: number;
  readonly building_Hz: number;
  readonly duration_s: number;
  readonly used_s: number;
  readonly clipped: readonly string[];
}

/** Higher orders carry no hum that matters once A-weighted. */
const highestOrder = 40;
/** A single line is believed at this many standard deviations; more lines bear one another out. */
const loneLine = 5;

/** Mean frequencies of one family in two channels of one recording differ by no more, wandering included. */
const sameBuilding_Hz = 0.02;
/** Seconds of one channel and one family of lines that are read in about two seconds of computing. */
const budget_s = 100;
/** Strong stray tones are fitted at the recorder's own rate, so that more of it costs more, if they are there. */
const usualRate_Hz = 48_000;
/** Shorter pieces would not part the families. */
export const leastUse_s = 0.6;

/** How much of each recording is read, so that the whole answer stays within its time; the more recordings, the less. */
export function usedLength_s({ building_Hz, recordings }: TraceInput): number {
  const tracks = recordings.reduce((sum, { channels, supply }) => {
    return sum + channels.length * (isOffset(supply.frequency_Hz, building_Hz) ? 2 : 1);
  }, 0);
  const rate_Hz = Math.max(usualRate_Hz, ...recordings.map((recording) => sizeOf(recording).rate_Hz));
  return (budget_s * (usualRate_Hz / rate_Hz) ** 0.75) / tracks;
}

/**
 * Reads every mains-related line of one recording, those of the unit's supply and of the building at once.
 *
 * @param most_s  length to read, from the start
 */
export function readLines(recording: HumRecording, index: number, building_Hz: number, most_s: number): RecordingLines {
  const { samples, rate_Hz } = beginningOf(recording, most_s);
  const { frequency_Hz } = recording.supply;
  const offset = isOffset(frequency_Hz, building_Hz);
  const clipped = recording.channels.filter((_, c) => isClipped(samples[c]!));
  for (const channel of samples) for (let n = 0; n < channel.length; n++) channel[n]! *= recording.fullScale_Vpk;
  const nominals = offset ? [frequency_Hz, building_Hz] : [building_Hz];
  const fits = fitFamilies(samples, rate_Hz, nominals);
  const duration_s = (samples[0]?.length ?? 0) / rate_Hz;
  const building = fits.at(-1)!;
  const byMains = referenceTurn(recording, building, mainsChannel);
  const bySupply = referenceTurn(recording, fits[0]!, supplyChannel);

  const readings = recording.channels.flatMap((channel, c) => {
    if (isReference(channel)) return [];
    return fits.flatMap((fit, f): LineReading[] => {
      const family = !offset ? "both" : f === 0 ? "supply" : "building";
      const other = offset ? fits[1 - f] : undefined;
      const onMains = family === "building" || recording.supply.source === "building";
      const turn = onMains ? byMains : family === "supply" ? bySupply : undefined;
      const lines = fit.channels[c]!;
      const standing = lines.filter((line) => line.detected);
      const believed = standing.length > 1 || standing.some((l) => l.level_Vrms > (loneLine * l.doubt_Vrms) / 1.96);
      return lines.map((line) => ({
        recording: index,
        channel,
        order: line.order,
        family,
        frequency_Hz: line.frequency_Hz,
        level_Vrms: line.level_Vrms,
        doubt_Vrms: line.doubt_Vrms,
        stands: line.detected && believed,
        crowded: other?.found === true && isCrowded(line.frequency_Hz, other, duration_s),
        angle_rad: Math.atan2(line.im, line.re),
        ...(turn && {
          phase_rad: Math.atan2(line.im, line.re) - line.order * turn.angle_rad,
          phaseSd_rad: line.order * turn.sd_rad,
          tie: onMains ? turn.channel : `${turn.channel} at ${frequency_Hz} Hz`,
        }),
      }));
    });
  });
  return {
    readings,
    supply_Hz: fits[0]!.frequency_Hz,
    building_Hz: building.frequency_Hz,
    duration_s: sizeOf(recording).duration_s,
    used_s: duration_s,
    clipped,
  };
}

/**
 * Fits the families in all channels together; where that leaves the strongest hum unexplained, a comb that is not the
 * mains has led it astray (periodic noise in a quiet channel will), and the channel with that hum leads instead.
 */
function fitFamilies(
  signals: readonly Float64Array[],
  rate_Hz: number,
  nominals: readonly number[],
): readonly MainsFit[] {
  const together = mainsBesideStrays(signals, rate_Hz, nominals, { orders: highestOrder }).fits;
  if (signals.length === 1) return together;
  const powers = signals.map((signal) => signal.reduce((sum, x) => sum + x * x, 0));
  const strongest = powers.indexOf(Math.max(...powers));
  const lines = together.flatMap((fit) => fit.channels[strongest]!);
  const loudest = lines.reduce((a, b) => (b.level_Vrms > a.level_Vrms ? b : a));
  if (loudest.detected || !together.some((fit) => fit.found)) return together;

  const apart = signals.map((signal) => mainsBesideStrays([signal], rate_Hz, nominals, { orders: highestOrder }).fits);
  return apart[strongest]!.map((lead, f) => ({
    ...lead,
    channels: apart.map((own) => {
      const { frequency_Hz, doubt_Hz, channels } = own[f]!;
      const same = Math.abs(frequency_Hz - lead.frequency_Hz) <= doubt_Hz + lead.doubt_Hz + sameBuilding_Hz;
      return same ? channels[0]! : channels[0]!.map((line) => ({ ...line, detected: false }));
    }),
  }));
}

/** Phase of the fundamental in a reference channel, by which phases compare between recordings. */
function referenceTurn(recording: HumRecording, fit: MainsFit, channel: string) {
  const place = recording.channels.indexOf(channel);
  const line = place >= 0 ? fit.channels[place]!.find((l) => l.order === 1) : undefined;
  if (!line?.detected) return undefined;
  return { channel, angle_rad: Math.atan2(line.im, line.re), sd_rad: line.doubt_Vrms / 1.96 / line.level_Vrms };
}

function isCrowded(frequency_Hz: number, other: MainsFit, duration_s: number): boolean {
  const nearest = Math.round(frequency_Hz / other.frequency_Hz);
  return nearest >= 1 && Math.abs(frequency_Hz - nearest * other.frequency_Hz) < 1 / duration_s;
}

function isClipped(samples: Float64Array): boolean {
  let run = 0;
  for (const x of samples) {
    run = Math.abs(x) >= 0.9999 ? run + 1 : 0;
    if (run >= 3) return true;
  }
  return false;
}
