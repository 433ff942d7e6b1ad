/** A tone sent through a unit, as it arrives at each output. */
export interface SentTone {
  readonly frequency_Hz: number;
  /** Channel to its level and harmonics over it: a triode's curve bends one way, so the second leads. */
  readonly at: Readonly<
    Record<string, { readonly level_Vrms: number; readonly second: number; readonly third: number }>
  >;
}

/** The oscillator's own quartz against true time. */
const oscillatorError = -7e-6;

/** Adds the tone as one channel's output gives it, in place. */
export function addTone(
  into_V: Float64Array,
  rate_Hz: number,
  { frequency_Hz, at }: SentTone,
  channel: string,
  phase_cycles: number,
): void {
  const heard = at[channel];
  if (heard === undefined) return;
  const peak_V = Math.SQRT2 * heard.level_Vrms;
  const turn = (2 * Math.PI * frequency_Hz * (1 + oscillatorError)) / rate_Hz;
  for (let n = 0; n < into_V.length; n++) {
    const phase = turn * n + 2 * Math.PI * phase_cycles;
    const sine = Math.sin(phase);
    // cos 2φ = 1 − 2·sin²φ, sin 3φ = 3·sin φ − 4·sin³φ
    const second = 1 - 2 * sine * sine;
    const third = sine * (3 - 4 * sine * sine);
    into_V[n]! += peak_V * (sine + heard.second * second + heard.third * third);
  }
}
