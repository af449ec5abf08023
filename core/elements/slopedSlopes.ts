// How much of a mode's squared wave number is owed to slopes along x, along y and upwards, under a sloped ceiling.

import { elements, RULE, shapeGradients, shapes } from './planElements.ts';
import type { Ceiling } from './slopedElements.ts';
import type { SlopedModes } from './slopedModes.ts';
import type { VerticalBasis } from './verticalBasis.ts';

/**
 * ∫(∂φ/∂x)², ∫(∂φ/∂y)², ∫(∂φ/∂z)² by mode, 1/m²: they sum to its squared wave number. With ζ = z / h and constant ∇h,
 * ∂ₓφ = ∂ₓu − ζ hₓ/h ∂_ζ u and ∂_z φ = ∂_ζ u / h.
 */
export function slopedSlopes(
  { mesh, basis, vector, value }: Pick<SlopedModes, 'mesh' | 'basis' | 'vector' | 'value'>,
  { height_m, slopeX, slopeY }: Ceiling,
): readonly [Float64Array, Float64Array, Float64Array] {
  const { count } = basis;
  const along = new Float64Array(vector.length);
  const upward = new Float64Array(vector.length);
  const values = new Float64Array(count);
  const slopes = new Float64Array(count);
  for (const element of elements(mesh))
    for (const { place, weight } of RULE) {
      const u = shapes(place);
      const g = shapeGradients(element, place);
      const nodes = [...element.nodes];
      const [x, y] = [mesh.x_m, mesh.y_m].map((coordinate) =>
        u.reduce((sum, share, a) => sum + share * (coordinate[nodes[a] ?? 0] ?? 0), 0),
      ) as [number, number];
      const h = height_m + slopeX * x + slopeY * y;
      const w = weight * element.area_m2;
      vector.forEach((field, mode) => {
        values.fill(0);
        slopes.fill(0);
        for (let a = 0; a < 6; a++) {
          const [ua, ga, base] = [u[a] ?? 0, g[a]?.[0] ?? 0, (nodes[a] ?? 0) * count];
          for (let degree = 0; degree < count; degree++) {
            const here = field[base + degree] as number;
            values[degree] = (values[degree] as number) + ua * here;
            slopes[degree] = (slopes[degree] as number) + ga * here;
          }
        }
        along[mode] =
          (along[mode] as number) + w * h * squareAlong(basis, values, slopes, slopeX / h);
        upward[mode] = (upward[mode] as number) + (w / h) * form(basis.slopeSlope, values, values);
      });
    }
  return [
    along,
    Float64Array.from(value, (whole, i) => whole - (along[i] ?? 0) - (upward[i] ?? 0)),
    upward,
  ];
}

/** ∫(Σ s_a P_a − ζ t Σ v_a P_a′)² dζ */
function squareAlong(
  { zetaValueSlope, zeta2SlopeSlope, count }: VerticalBasis,
  values: Float64Array,
  slopes: Float64Array,
  tilt: number,
): number {
  let level = 0;
  for (let a = 0; a < count; a++) level += (slopes[a] as number) ** 2;
  if (tilt === 0) return level;
  return (
    level -
    2 * tilt * form(zetaValueSlope, slopes, values) +
    tilt * tilt * form(zeta2SlopeSlope, values, values)
  );
}

/** Σ x_a T_ab y_b */
function form(table: Float64Array, x: Float64Array, y: Float64Array): number {
  let sum = 0;
  for (let a = 0; a < x.length; a++)
    for (let b = 0; b < y.length; b++)
      sum += (x[a] as number) * (table[a * y.length + b] as number) * (y[b] as number);
  return sum;
}
