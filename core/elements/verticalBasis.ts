// Polynomials up a room's height, ζ = 0 at the floor to 1 at the ceiling, and the integrals of them that elements need.

/** All by `[a * count + b]`; P orthonormal on 0 … 1. */
export interface VerticalBasis {
  readonly count: number;
  /** ∫ζ Pa Pb′ dζ */
  readonly zetaValueSlope: Float64Array;
  /** ∫Pa′ Pb′ dζ */
  readonly slopeSlope: Float64Array;
  /** ∫ζ² Pa′ Pb′ dζ */
  readonly zeta2SlopeSlope: Float64Array;
  readonly valuesAt: (zeta: number) => Float64Array;
}

/**
 * Legendre polynomials to a degree, shifted to 0 … 1 and normalised.
 * @source Abramowitz & Stegun 22.7.10 (recurrence), 22.2.11 (norm)
 */
export function verticalBasis(degree: number): VerticalBasis {
  const count = degree + 1;
  const { at, weight } = gaussLegendre(degree + 2);
  const tables = () => new Float64Array(count * count);
  const zetaValueSlope = tables();
  const slopeSlope = tables();
  const zeta2SlopeSlope = tables();
  at.forEach((zeta, point) => {
    const w = weight[point] ?? 0;
    const { value, slope } = legendre(degree, zeta);
    for (let a = 0; a < count; a++)
      for (let b = 0; b < count; b++) {
        const i = a * count + b;
        zetaValueSlope[i] = (zetaValueSlope[i] ?? 0) + w * zeta * (value[a] ?? 0) * (slope[b] ?? 0);
        const ss = w * (slope[a] ?? 0) * (slope[b] ?? 0);
        slopeSlope[i] = (slopeSlope[i] ?? 0) + ss;
        zeta2SlopeSlope[i] = (zeta2SlopeSlope[i] ?? 0) + zeta * zeta * ss;
      }
  });
  return {
    count,
    zetaValueSlope,
    slopeSlope,
    zeta2SlopeSlope,
    valuesAt: (zeta) => legendre(degree, zeta).value,
  };
}

/** Values and slopes d/dζ of the normalised shifted polynomials. */
function legendre(degree: number, zeta: number): { value: Float64Array; slope: Float64Array } {
  const x = 2 * zeta - 1;
  const value = new Float64Array(degree + 1).fill(1);
  const slope = new Float64Array(degree + 1);
  if (0 < degree) {
    value[1] = x;
    slope[1] = 1;
  }
  for (let n = 1; n < degree; n++) {
    value[n + 1] = ((2 * n + 1) * x * (value[n] ?? 0) - n * (value[n - 1] ?? 0)) / (n + 1);
    slope[n + 1] = (slope[n - 1] ?? 0) + (2 * n + 1) * (value[n] ?? 0);
  }
  for (let n = 0; n <= degree; n++) {
    const norm = Math.sqrt(2 * n + 1);
    value[n] = (value[n] ?? 0) * norm;
    slope[n] = (slope[n] ?? 0) * norm * 2; // dx/dζ = 2
  }
  return { value, slope };
}

/** Gauss points and weights on 0 … 1, by Newton from the usual first guess. @source Abramowitz & Stegun 25.4.29 */
function gaussLegendre(count: number): { at: number[]; weight: number[] } {
  const at: number[] = [];
  const weight: number[] = [];
  for (let i = 0; i < count; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 20; step++) {
      let [before, here] = [1, x];
      for (let n = 1; n < count; n++) {
        [before, here] = [here, ((2 * n + 1) * x * here - n * before) / (n + 1)];
      }
      slope = (count * (x * here - before)) / (x * x - 1);
      x -= here / slope;
    }
    at.push((1 + x) / 2);
    weight.push(1 / ((1 - x * x) * slope * slope));
  }
  return { at, weight };
}
