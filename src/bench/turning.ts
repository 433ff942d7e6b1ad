/** Turns of a steady phase at a sample, less whole ones, without losing digits to a large product. */
export function turnsAt(perSample: number, n: number): number {
  const stretch = 4096;
  const long = perSample * stretch;
  const product = (long - Math.floor(long)) * Math.floor(n / stretch);
  return product - Math.floor(product) + perSample * (n % stretch);
}

/** Σ x·e^{−j(start + n·step)}, four interleaved recurrences at a time. */
export function sumTurned(x: Float64Array, start_rad: number, step_rad: number): [number, number] {
  let aRe = Math.cos(start_rad);
  let aIm = Math.sin(start_rad);
  let bRe = Math.cos(start_rad + step_rad);
  let bIm = Math.sin(start_rad + step_rad);
  let cRe = Math.cos(start_rad + 2 * step_rad);
  let cIm = Math.sin(start_rad + 2 * step_rad);
  let dRe = Math.cos(start_rad + 3 * step_rad);
  let dIm = Math.sin(start_rad + 3 * step_rad);
  const c = Math.cos(4 * step_rad);
  const s = Math.sin(4 * step_rad);
  let [re, im, otherRe, otherIm] = [0, 0, 0, 0];
  let n = 0;
  for (; n + 3 < x.length; n += 4) {
    const one = x[n]!;
    const two = x[n + 1]!;
    const three = x[n + 2]!;
    const four = x[n + 3]!;
    re += one * aRe + two * bRe;
    im -= one * aIm + two * bIm;
    otherRe += three * cRe + four * dRe;
    otherIm -= three * cIm + four * dIm;
    const a = aRe * c - aIm * s;
    aIm = aRe * s + aIm * c;
    aRe = a;
    const b = bRe * c - bIm * s;
    bIm = bRe * s + bIm * c;
    bRe = b;
    const e = cRe * c - cIm * s;
    cIm = cRe * s + cIm * c;
    cRe = e;
    const d = dRe * c - dIm * s;
    dIm = dRe * s + dIm * c;
    dRe = d;
  }
  for (; n < x.length; n++) {
    re += x[n]! * Math.cos(start_rad + n * step_rad);
    im -= x[n]! * Math.sin(start_rad + n * step_rad);
  }
  return [re + otherRe, im + otherIm];
}
