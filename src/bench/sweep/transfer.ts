import { type Lags, lagWindow } from "./correlate.ts";

export interface Complex {
  readonly re: number;
  readonly im: number;
}

/**
 * Response to one order at one frequency: windowed cross-correlation over windowed autocorrelation, which is a local
 * least squares over neighbouring frequencies, weighted by the sweep's energy.
 *
 *     H(f) = Σ w·c·e^{−j2πft} / Σ w·r·e^{−j2πft}
 *
 * @param reach  half length of the window in samples
 */
export function transferAt(lags: Lags, channel: number, cyclesPerSample: number, reach: number): Complex {
  const { half, withItself } = lags;
  const cross = lags.withChannel[channel]!;
  const within = Math.max(1, Math.min(half, Math.round(reach)));
  let [topRe, topIm, bottomRe, bottomIm] = [0, 0, 0, 0];
  const turn = 2 * Math.PI * cyclesPerSample;
  const [stepRe, stepIm] = [Math.cos(turn), -Math.sin(turn)];
  let [re, im] = [0, 0];
  for (let t = -within; t <= within; t++) {
    if ((t + within) % renewal === 0) {
      const turns = cyclesPerSample * t;
      const phase = -2 * Math.PI * (turns - Math.floor(turns));
      re = Math.cos(phase);
      im = Math.sin(phase);
    }
    const w = lagWindow(t / within);
    const c = w * cross[t + half]!;
    const r = w * withItself[t + half]!;
    topRe += c * re;
    topIm += c * im;
    bottomRe += r * re;
    bottomIm += r * im;
    const next = re * stepRe - im * stepIm;
    im = re * stepIm + im * stepRe;
    re = next;
  }
  const size = bottomRe ** 2 + bottomIm ** 2;
  if (!(size > 0)) return { re: 0, im: 0 };
  return { re: (topRe * bottomRe + topIm * bottomIm) / size, im: (topIm * bottomRe - topRe * bottomIm) / size };
}

/** The turning phasor is computed afresh after so many samples. */
const renewal = 1024;
