// What covers each surface of the room, as absorption and as the share of sound pressure that it throws back.

import type { Spectrum } from '../../schema/model/quantities.ts';
import type { Covering } from '../../schema/model/room.ts';
import { absorptionAt_ratio, MATERIALS } from '../acoustics/materials.ts';
import { diffuseAbsorption_ratio } from '../acoustics/porousLayer.ts';
import { reflectionFactor_ratio } from '../acoustics/reflection.ts';

/**
 * Share of the sound pressure that a covering throws back, 0 … 1.
 *
 * @returns 1 (hard) where nothing is known of it
 */
export function reflection_ratio(covering: Covering | null, frequency_hz: number): number {
  const absorption = covering && absorption_ratio(covering, frequency_hz);
  return absorption === null ? 1 : reflectionFactor_ratio(absorption);
}

/**
 * Random-incidence absorption of a covering.
 *
 * @param frequency_hz > 0
 * @returns >= 0; null where the material is not known or nothing was written
 */
export function absorption_ratio(covering: Covering, frequency_hz: number): number | null {
  switch (covering.kind) {
    case 'material': {
      const material = MATERIALS.get(covering.material);
      return material ? absorptionAt_ratio(material.absorptions_ratio, frequency_hz) : null;
    }
    case 'absorption':
      return valueAt(covering.absorption, frequency_hz);
    case 'shares':
      return sharedAbsorption_ratio(covering.shares, frequency_hz);
    case 'admittance':
      return covering.real < 0
        ? null
        : diffuseAbsorption_ratio({ re: covering.real, im: covering.imaginary });
  }
}

/** Mean by area; the shares are taken in proportion where they do not add up to the whole. */
function sharedAbsorption_ratio(
  shares: readonly { readonly material: string; readonly share: number }[],
  frequency_hz: number,
): number | null {
  let area = 0;
  let absorbed = 0;
  for (const { material, share } of shares) {
    const absorption = absorption_ratio({ kind: 'material', material }, frequency_hz);
    if (absorption === null) return null;
    area += share;
    absorbed += share * absorption;
  }
  return 0 < area ? absorbed / area : null;
}

/** In a straight line over the logarithm of frequency, level beyond the outermost values; null for an empty spectrum. */
export function valueAt({ frequency_hz, value }: Spectrum, at_hz: number): number | null {
  const above = frequency_hz.findIndex((frequency) => at_hz <= frequency);
  const upper = above === -1 ? frequency_hz.length - 1 : above;
  const lower = above === -1 ? upper : Math.max(0, above - 1);
  const [f0, f1, v0, v1] = [frequency_hz[lower], frequency_hz[upper], value[lower], value[upper]];
  if (f0 === undefined || f1 === undefined || v0 === undefined || v1 === undefined) return null;
  return f0 === f1 ? v1 : v0 + ((v1 - v0) * Math.log(at_hz / f0)) / Math.log(f1 / f0);
}
