// Complex numbers and complex responses over frequency; the time factor is e^{+jωt}, so a delay d is e^{−jωd}.

/** One complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** A complex value for each frequency of a grid: `re[i] + j im[i]` at `frequencies_hz[i]`. */
export interface ComplexResponse {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const ONE: Complex = { re: 1, im: 0 };

export function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

/** a / b; b = 0 gives infinities or NaN, as division of real numbers does. */
export function over(a: Complex, b: Complex): Complex {
  const norm = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / norm, im: (a.im * b.re - a.re * b.im) / norm };
}

export function plus(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

/** 20 lg |a|. */
export function magnitude_db(a: Complex): number {
  return 10 * Math.log10(a.re * a.re + a.im * a.im);
}

/** Argument of a, in (−π, π]. */
export function phase_rad(a: Complex): number {
  return Math.atan2(a.im, a.re);
}

/** A number from its amplitude and phase. */
export function polar(amplitude_ratio: number, angle_rad: number): Complex {
  return { re: amplitude_ratio * Math.cos(angle_rad), im: amplitude_ratio * Math.sin(angle_rad) };
}

/** An angle brought into (−π, π]. */
export function wrapped_rad(angle_rad: number): number {
  const turn = 2 * Math.PI;
  return angle_rad - turn * Math.ceil(angle_rad / turn - 0.5);
}

/**
 * Fills a response from a function of frequency.
 *
 * @param frequencies_hz the grid, any order
 * @param at the value at one frequency
 */
export function responseOf(
  frequencies_hz: ArrayLike<number>,
  at: (frequency_hz: number) => Complex,
): ComplexResponse {
  const response = emptyResponse(frequencies_hz.length);
  for (let i = 0; i < frequencies_hz.length; i++) {
    const { re, im } = at(frequencies_hz[i] ?? Number.NaN);
    response.re[i] = re;
    response.im[i] = im;
  }
  return response;
}

/** Sum of responses on the same grid. @throws RangeError when their lengths differ */
export function sumOf(a: ComplexResponse, b: ComplexResponse): ComplexResponse {
  sameLength(a, b);
  const sum = emptyResponse(a.re.length);
  for (let i = 0; i < a.re.length; i++) {
    sum.re[i] = (a.re[i] as number) + (b.re[i] as number);
    sum.im[i] = (a.im[i] as number) + (b.im[i] as number);
  }
  return sum;
}

/** Product of responses on the same grid. @throws RangeError when their lengths differ */
export function productOf(a: ComplexResponse, b: ComplexResponse): ComplexResponse {
  sameLength(a, b);
  const product = emptyResponse(a.re.length);
  for (let i = 0; i < a.re.length; i++) {
    const aRe = a.re[i] as number;
    const aIm = a.im[i] as number;
    const bRe = b.re[i] as number;
    const bIm = b.im[i] as number;
    product.re[i] = aRe * bRe - aIm * bIm;
    product.im[i] = aRe * bIm + aIm * bRe;
  }
  return product;
}

/** The response at one place of the grid. @throws RangeError outside the grid */
export function valueAt(response: ComplexResponse, index: number): Complex {
  const re = response.re[index];
  const im = response.im[index];
  if (re === undefined || im === undefined) throw new RangeError(`no value at index ${index}`);
  return { re, im };
}

/** 20 lg of the magnitude at each frequency of the grid. */
export function levels_db(response: ComplexResponse): Float64Array {
  const levels_db = new Float64Array(response.re.length);
  for (let i = 0; i < levels_db.length; i++) {
    const re = response.re[i] as number;
    const im = response.im[i] as number;
    levels_db[i] = 10 * Math.log10(re * re + im * im);
  }
  return levels_db;
}

function emptyResponse(length: number): ComplexResponse {
  return { re: new Float64Array(length), im: new Float64Array(length) };
}

function sameLength(a: ComplexResponse, b: ComplexResponse): void {
  if (a.re.length !== b.re.length) {
    throw new RangeError(`responses of ${a.re.length} and ${b.re.length} frequencies`);
  }
}

/** A response with what another one changes by from `before` to `after`. */
export function withChange(
  whole: ComplexResponse,
  before: ComplexResponse,
  after: ComplexResponse,
): ComplexResponse {
  const part = (of: 're' | 'im') =>
    whole[of].map((value, i) => value + (after[of][i] ?? 0) - (before[of][i] ?? 0));
  return { re: part('re'), im: part('im') };
}
