// What we use of fft.js, typed here: the package names types that it does not carry.

/** Transforms of one size: arrays are interleaved [re, im], forward with e^{−jωt}, inverse divided by the size. */
export default class FFT {
  /** @throws Error on a size that is no power of two */
  constructor(size: number);
  transform(out: Float64Array, data: Float64Array): void;
  inverseTransform(out: Float64Array, data: Float64Array): void;
}
