// Elements of a room under a sloped ceiling: second-order triangles on the plan times polynomials up the local height.
//
// With ζ = z / h(x, y) and ∇h constant, the field u(x, y, ζ) has ∂ₓp = ∂ₓu − ζ hₓ/h ∂_ζ u and ∂_z p = ∂_ζ u / h, so that
//   ∫∇p·∇q = ∫∫ [ h ∇u·∇v − ζ (∇u·∇h v_ζ + u_ζ ∇h·∇v) + (ζ² |∇h|² + 1)/h u_ζ v_ζ ] dA dζ,  ∫pq = ∫∫ h u v dA dζ.

import { elements, RULE, shapeGradients, shapes } from './planElements.ts';
import type { PlanMesh } from './planMesh.ts';
import { matrixBuilder, type SymmetricMatrix } from './sparse.ts';
import type { VerticalBasis } from './verticalBasis.ts';

/** Ceiling height = height_m + slopeX x + slopeY y, > 0 over the plan. */
export interface Ceiling {
  readonly height_m: number;
  readonly slopeX: number;
  readonly slopeY: number;
}

/** Stiffness and mass, entry for entry in the same places; unknown `node * count + degree`. */
export function slopedMatrices(
  mesh: PlanMesh,
  ceiling: Ceiling,
  basis: VerticalBasis,
): { stiffness: SymmetricMatrix; mass: SymmetricMatrix } {
  const { count } = basis;
  const size = mesh.x_m.length * count;
  const stiffness = matrixBuilder(size);
  const mass = matrixBuilder(size);
  const { slopeX, slopeY } = ceiling;
  const steepness = slopeX * slopeX + slopeY * slopeY;
  for (const element of elements(mesh)) {
    const parts = planParts(mesh, element, ceiling);
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++) {
        const { flat, slope, transposed, over, volume } = parts[i * 6 + j] ?? NOTHING;
        const [rowNode, columnNode] = [element.nodes[i] ?? 0, element.nodes[j] ?? 0];
        if (rowNode < columnNode) continue;
        for (let a = 0; a < count; a++)
          for (let b = 0; b < count; b++) {
            const ab = a * count + b;
            const same = a === b ? 1 : 0;
            stiffness.add(
              rowNode * count + a,
              columnNode * count + b,
              flat * same -
                slope * (basis.zetaValueSlope[ab] ?? 0) -
                transposed * (basis.zetaValueSlope[b * count + a] ?? 0) +
                over * (steepness * (basis.zeta2SlopeSlope[ab] ?? 0) + (basis.slopeSlope[ab] ?? 0)),
            );
            mass.add(rowNode * count + a, columnNode * count + b, same * volume);
          }
      }
  }
  return { stiffness: stiffness.build(), mass: mass.build() };
}

interface PlanPart {
  /** ∫h ∇φi·∇φj */
  readonly flat: number;
  /** ∫(∇φi·∇h) φj, and with i and j exchanged */
  readonly slope: number;
  readonly transposed: number;
  /** ∫φi φj / h */
  readonly over: number;
  /** ∫h φi φj */
  readonly volume: number;
}

const NOTHING: PlanPart = { flat: 0, slope: 0, transposed: 0, over: 0, volume: 0 };

function planParts(
  mesh: PlanMesh,
  element: ReturnType<typeof elements>[number],
  { height_m, slopeX, slopeY }: Ceiling,
): PlanPart[] {
  const parts = Array.from(
    { length: 36 },
    () => ({ ...NOTHING }) as { -readonly [K in keyof PlanPart]: number },
  );
  const corner = (coordinate: Float64Array, k: number) => coordinate[element.nodes[k] ?? 0] ?? 0;
  for (const { place, weight } of RULE) {
    const x = place.reduce((sum, share, k) => sum + share * corner(mesh.x_m, k), 0);
    const y = place.reduce((sum, share, k) => sum + share * corner(mesh.y_m, k), 0);
    const h = height_m + slopeX * x + slopeY * y;
    const w = weight * element.area_m2;
    const u = shapes(place);
    const g = shapeGradients(element, place);
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++) {
        const part = parts[i * 6 + j];
        const [gi, gj] = [g[i] ?? [0, 0], g[j] ?? [0, 0]];
        const [ui, uj] = [u[i] ?? 0, u[j] ?? 0];
        if (!part) continue;
        part.flat += w * h * (gi[0] * gj[0] + gi[1] * gj[1]);
        part.slope += w * (gi[0] * slopeX + gi[1] * slopeY) * uj;
        part.transposed += w * (gj[0] * slopeX + gj[1] * slopeY) * ui;
        part.over += (w * ui * uj) / h;
        part.volume += w * h * ui * uj;
      }
  }
  return parts;
}
