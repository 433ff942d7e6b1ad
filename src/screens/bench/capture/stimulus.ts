/** What is played while recording. Levels are shares of the player's full scale. */
export type Stimulus =
  | { readonly kind: "silence" }
  | { readonly kind: "tone"; readonly frequency_Hz: number; readonly level: number }
  | {
      readonly kind: "two tones";
      readonly tones_Hz: readonly [low: number, high: number];
      readonly products: "modulation" | "difference";
      readonly level: number;
    }
  | { readonly kind: "sweep"; readonly sweep: Sweep; readonly level: number };

export interface Sweep {
  readonly start_Hz: number;
  readonly stop_Hz: number;
  readonly duration_s: number;
}

/** Share of its rate up to which a player can sound. */
const playable = 0.4999;
/** Rise and fall of a tone that is switched on while an amplifier listens. */
const rise_s = 0.05;
/** Quiet before and after a sweep, so that its beginning and its decay are in the record. */
export const beforeSweep_s = 0.3;
export const afterSweep_s = 1;

/**
 * The duration nearest to the one asked for at which start · duration / ln(stop/start) is whole: then each harmonic
 * of the sweep keeps its own phase.
 *
 * @source Novak, Lotton and Simon, J. Audio Eng. Soc. 63 (2015) 786 (remembered)
 */
export function synchronised({ start_Hz, stop_Hz, duration_s }: Sweep): Sweep {
  const log = Math.log(stop_Hz / start_Hz);
  const turns = Math.max(1, Math.round((start_Hz * duration_s) / log));
  return { start_Hz, stop_Hz, duration_s: (turns * log) / start_Hz };
}

/** How long the stimulus itself sounds beside a record of `record_s`; a sweep's length is its own. */
export function soundingTime_s(stimulus: Stimulus, record_s: number): number {
  return stimulus.kind === "sweep" ? stimulus.sweep.duration_s : record_s;
}

/**
 * Samples of the stimulus at the player's rate, 1 being full scale.
 *
 * Sweep: level·sin(2π·start·L·(e^{t/L} − 1)) with L = duration/ln(stop/start), no fades; silent from where it would pass
 * half the player's rate, beyond which it would sound at other frequencies.
 * Two tones: the levels of modulation stand 4 to 1 and low first, those of difference are equal; together they reach `level`.
 */
export function stimulusSamples(stimulus: Stimulus, rate_Hz: number, seconds: number): Float32Array<ArrayBuffer> {
  const samples = new Float32Array(Math.round(seconds * rate_Hz));
  switch (stimulus.kind) {
    case "silence":
      return samples;
    case "tone":
      addTone(samples, rate_Hz, stimulus.frequency_Hz, stimulus.level);
      fade(samples, rate_Hz);
      return samples;
    case "two tones": {
      const [low, high] = stimulus.products === "modulation" ? [0.8, 0.2] : [0.5, 0.5];
      addTone(samples, rate_Hz, stimulus.tones_Hz[0], stimulus.level * low);
      addTone(samples, rate_Hz, stimulus.tones_Hz[1], stimulus.level * high);
      fade(samples, rate_Hz);
      return samples;
    }
    case "sweep": {
      const { start_Hz, stop_Hz, duration_s } = stimulus.sweep;
      const scale_s = duration_s / Math.log(stop_Hz / start_Hz);
      const last_s = scale_s * Math.log((playable * rate_Hz) / start_Hz);
      for (let n = 0; n < samples.length && n < last_s * rate_Hz; n++) {
        samples[n] = stimulus.level * Math.sin(2 * Math.PI * start_Hz * scale_s * Math.expm1(n / rate_Hz / scale_s));
      }
      return samples;
    }
  }
}

function addTone(samples: Float32Array, rate_Hz: number, frequency_Hz: number, level: number): void {
  const step = (2 * Math.PI * frequency_Hz) / rate_Hz;
  for (let n = 0; n < samples.length; n++) samples[n]! += level * Math.sin(step * n);
}

function fade(samples: Float32Array, rate_Hz: number): void {
  const length = Math.min(Math.round(rise_s * rate_Hz), samples.length >> 1);
  for (let n = 0; n < length; n++) {
    const share = 0.5 - 0.5 * Math.cos((Math.PI * n) / length);
    samples[n]! *= share;
    samples[samples.length - 1 - n]! *= share;
  }
}
