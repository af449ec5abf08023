// Loudspeakers and filters of the synthesis as polynomials in jf/f₀, typed from textbooks: nothing of the project's own filters.

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export type Filter = (frequency_hz: number) => Complex;

const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
const over = (a: Complex, b: Complex): Complex => {
  const norm = b.re ** 2 + b.im ** 2;
  return { re: (a.re * b.re + a.im * b.im) / norm, im: (a.im * b.re - a.re * b.im) / norm };
};

/** Second-order section with s = jf/f₀: s²/(s² + s/Q + 1) or 1/(…). */
function second(f0_hz: number, q: number, isHigh: boolean): Filter {
  return (f_hz) => {
    const x = f_hz / f0_hz;
    const below = { re: 1 - x * x, im: x / q };
    return over(isHigh ? { re: -x * x, im: 0 } : { re: 1, im: 0 }, below);
  };
}

/** Fourth-order Butterworth: Q = 0.5412 and 1.3066 (any filter table). */
export function butterworth4High(f3_hz: number): Filter {
  return chain(second(f3_hz, 0.541196, true), second(f3_hz, 1.306563, true));
}

/** Fourth-order Linkwitz-Riley: two second-order Butterworths, −6 dB at the frequency. */
export function linkwitzRiley4(f_hz: number, isHigh: boolean): Filter {
  return chain(second(f_hz, Math.SQRT1_2, isHigh), second(f_hz, Math.SQRT1_2, isHigh));
}

export function butterworth2Low(f3_hz: number): Filter {
  return second(f3_hz, Math.SQRT1_2, false);
}

/** First-order all-pass: −90° at the frequency. */
export function allPass1(f0_hz: number): Filter {
  return (f_hz) => over({ re: 1, im: -f_hz / f0_hz }, { re: 1, im: f_hz / f0_hz });
}

/** Gain, polarity and delay. */
export function plain(gain_db: number, isInverted: boolean, delay_s: number): Filter {
  const size = (isInverted ? -1 : 1) * 10 ** (gain_db / 20);
  return (f_hz) => ({
    re: size * Math.cos(2 * Math.PI * f_hz * delay_s),
    im: -size * Math.sin(2 * Math.PI * f_hz * delay_s),
  });
}

export function chain(...filters: readonly Filter[]): Filter {
  return (f_hz) => filters.reduce((product, one) => times(product, one(f_hz)), { re: 1, im: 0 });
}
