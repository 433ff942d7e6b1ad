declare module "fft.js" {
  /** Radix-4 transform of one size, a power of two above 1; complex arrays are interleaved, real part first. */
  export default class FFT {
    constructor(size: number);
    /** Fills the first half of `out` (bins 0 to size/2) only. */
    realTransform(out: Float64Array, data: Float64Array): void;
    transform(out: Float64Array, data: Float64Array): void;
    inverseTransform(out: Float64Array, data: Float64Array): void;
  }
}
