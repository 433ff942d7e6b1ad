import { BadInput } from "../../maths/badInput.ts";
import { analyseNoise } from "../noise.ts";
import type { Recording } from "../recording.ts";
import { analyseTone } from "../tone.ts";
import { grainBits } from "./grain.ts";

export interface LoopbackQuestion {
  /** A steady tone, the output of the recorder joined to its input. */
  readonly tone: Recording;
  /** What a meter read across that lead while the tone was played, with its 95 % half-width. */
  readonly applied_Vrms: number;
  readonly appliedDoubt_Vrms: number;
  /** The same lead with nothing played, or the input shorted. */
  readonly quiet?: Recording;
  readonly names?: readonly string[];
  readonly seconds?: number;
}

export interface RecorderChannel {
  readonly name: string;
  readonly fullScale_Vpk: number;
  readonly doubt_Vpk: number;
  /** Player and recorder together: what is measured below this can't be told from them. */
  readonly thd_pct: number;
  readonly noise_Vrms?: number;
  readonly noiseA_Vrms?: number;
}

export interface LoopbackReport {
  readonly frequency_Hz: number;
  readonly grain_bits: number;
  readonly channels: readonly RecorderChannel[];
  readonly notes: readonly string[];
}

/** A tone this near to full scale may already bend the recorder. */
const near_dBFS = -0.5;
/** A tone below this leaves the calibration at the mercy of the noise. */
const low_dBFS = -40;

/** What a tone worth calibrating by has beside it stays far below this. */
const otherSound_pct = 10;

/**
 * Full scale of a recorder in volts from a tone whose voltage a meter read, and what the recorder adds of its own.
 *
 *     full scale = applied_Vrms / r.m.s. of the samples (full scale 1),  doubts of meter and fit as root sum square
 *
 * @throws BadInput  as `analyseTone` and `analyseNoise`; a tone that clips or is not alone, a quiet record at another sample rate
 */
export function analyseLoopback(question: LoopbackQuestion): LoopbackReport {
  const { tone, quiet, names, applied_Vrms, appliedDoubt_Vrms, seconds } = question;
  const loud = analyseTone(tone, 1, { ...(names && { names }), ...(seconds && { seconds }) });
  const notes: string[] = [];
  for (const { name, clipped } of loud.channels) {
    if (!clipped) continue;
    throw new BadInput(
      "recording",
      `channel ${name} runs out of range`,
      "a tone inside the recorder's range",
      "turn the player down by a few decibels, read the meter again and record anew",
    );
  }
  for (const { name, thdn_pct } of loud.channels) {
    if (thdn_pct < otherSound_pct) continue;
    throw new BadInput(
      "recording",
      `channel ${name} holds a tone with ${thdn_pct.toPrecision(2)} % of its level beside it`,
      "one steady tone, alone",
      "play a tone, not music, and keep the lead away from anything else",
    );
  }
  if (quiet && quiet.rate_Hz !== tone.rate_Hz) {
    throw new BadInput(
      "quiet",
      `${quiet.rate_Hz} Hz beside a tone at ${tone.rate_Hz} Hz`,
      "both records at one sample rate",
      "record the silence with the settings of the tone",
    );
  }
  const still = quiet && analyseNoise(quiet, 1, names && [...names], undefined, seconds);
  const channels = loud.channels.map(({ name, level_Vrms, thd_pct, doubt }): RecorderChannel => {
    const level_dBFS = 20 * Math.log10(level_Vrms * Math.SQRT2);
    if (level_dBFS > near_dBFS)
      notes.push(
        `${name}: the tone stands within ${-near_dBFS} dB of full scale, where some recorders bend; 3 to 10 dB lower is better.`,
      );
    if (level_dBFS < low_dBFS)
      notes.push(
        `${name}: the tone stands ${(-level_dBFS).toFixed(0)} dB under full scale; a louder one calibrates better.`,
      );
    const fullScale_Vpk = applied_Vrms / level_Vrms;
    const own = still?.channels.find((channel) => channel.name === name);
    return {
      name,
      fullScale_Vpk,
      doubt_Vpk: fullScale_Vpk * Math.hypot(appliedDoubt_Vrms / applied_Vrms, doubt.level_Vrms / level_Vrms),
      thd_pct,
      ...(own && { noise_Vrms: own.noise_Vrms * fullScale_Vpk, noiseA_Vrms: own.noiseA_Vrms * fullScale_Vpk }),
    };
  });
  const grain_bits = Math.max(grainBits(tone.samples), quiet ? grainBits(quiet.samples) : 0);
  if (grain_bits <= 16) {
    notes.push(
      `The samples come in steps of ${grain_bits} bits: between recorder and file something may have cut them down; nothing finer can be seen.`,
    );
  }
  if (!quiet) notes.push("Without a record of silence the recorder's own noise is not known.");
  notes.push("Distortion and noise are those of player and recorder together: the recorder alone has at most as much.");
  return { frequency_Hz: loud.channels[0]!.frequency_Hz, grain_bits, channels, notes };
}
