// What the room's surfaces do to low frequencies: the specific admittance of each one as a function of frequency.
//
// A covering's random-incidence absorption becomes the real admittance that would absorb as much (Paris); a surface with several
// coverings (shares, panels) gets their mean by area, for at low frequencies the pressure is the same all over a patch. Measured
// decay times overrule the amount, not the distribution: all admittances that come from absorption are scaled, frequency by
// frequency, so that an oblique mode decays in the measured time.

import type { Covering, Space } from '../../schema/model/room.ts';
import type { Admittance } from '../acoustics/field/axisModes.ts';
import { decayConstant_per_s } from '../acoustics/modalDecay.ts';
import { admittanceOf, GREATEST_ABSORPTION } from '../acoustics/statisticalAbsorption.ts';
import { absorption_ratio } from '../parts/coverings.ts';
import { type DecayTime, decayTimeAt_s } from '../parts/decayTime.ts';
import type { RoomShape } from '../parts/roomShape.ts';
import { type CoveredArea, coveredAreas } from '../parts/surfaces.ts';
import type { Note } from '../setup.ts';

export interface FieldSurfaces {
  /** Floor, ceiling, then the walls in the plan's order. */
  readonly names: readonly string[];
  /** Admittances at a frequency (Hz), in the order of `names`. */
  readonly at: (frequency_hz: number) => readonly Admittance[];
  readonly from: 'measured' | 'surfaces';
  /** Surfaces without a known covering, or with one that no table knows. */
  readonly assumed: readonly string[];
  /** Surfaces that absorb more, somewhere in the bass, than any real admittance can: they got the greatest one. */
  readonly beyond: readonly string[];
}

export interface DampingGiven {
  readonly volume_m3: number;
  readonly speedOfSound_m_s: number;
  /** null where none was measured. */
  readonly measured: DecayTime | null;
  /** Multiplies what absorbs: for the envelope; 1 otherwise. */
  readonly factor: number;
}

/** Stands in where nothing is known: an ordinary lightweight wall or ceiling. Common practice, no source. */
export const ASSUMED_ABSORPTION = 0.15;
/** Below this a room would ring for ever: painted concrete. */
const LEAST_SCALE = 0.02;
/** No wall gives way more than air itself does. */
const MOST_ADMITTANCE = 1;

/**
 * @param shape with its ceiling known
 * @source Paris' formula as in `admittanceOf`; oblique modes δ = (c/V) Σ β S, Morse & Ingard, Theoretical Acoustics, §9.4, first order
 */
export function fieldSurfaces(
  shape: RoomShape,
  space: Pick<Space, 'surfaces' | 'fixtures'>,
  given: DampingGiven,
): FieldSurfaces {
  const names = ['floor', 'ceiling', ...shape.wallNames];
  const areas = coveredAreas(shape, space);
  const patches = names.map((name) => patchesOf(areas.filter(({ surface }) => surface === name)));
  const at = (frequency_hz: number) => {
    const parts = patches.map((list) => mean(list, frequency_hz));
    const scale = scaleOf(parts, frequency_hz, given);
    return parts.map(({ stated, absorbing, imaginary }) => ({
      real: Math.min(MOST_ADMITTANCE, stated + scale * absorbing),
      imaginary,
    }));
  };
  const which = (test: (area: CoveredArea) => boolean) =>
    names.filter((name) => areas.some((area) => area.surface === name && test(area)));
  return {
    names,
    at,
    from: given.measured === null ? 'surfaces' : 'measured',
    assumed: which(({ covering, area_m2 }) => 0 < area_m2 && !isKnown(covering)),
    beyond: which(({ covering }) => isBeyond(covering)),
  };
}

interface Patch {
  readonly area_m2: number;
  readonly admittance: (frequency_hz: number) => number;
  readonly stated: Admittance | null;
}

function patchesOf(areas: readonly CoveredArea[]): readonly Patch[] {
  return areas.flatMap(({ area_m2, covering }) => patches(area_m2, covering));
}

function patches(area_m2: number, covering: Covering | null): readonly Patch[] {
  if (covering?.kind === 'admittance' && 0 <= covering.real) {
    const stated = { real: covering.real, imaginary: covering.imaginary };
    return [{ area_m2, admittance: () => 0, stated }];
  }
  if (covering?.kind === 'shares' && isKnown(covering)) {
    const whole = covering.shares.reduce((sum, { share }) => sum + share, 0);
    return covering.shares.flatMap(({ material, share }) =>
      patches((area_m2 * share) / whole, { kind: 'material', material }),
    );
  }
  const absorbed = (frequency_hz: number) =>
    (covering && isKnown(covering) ? absorption_ratio(covering, frequency_hz) : null) ??
    ASSUMED_ABSORPTION;
  const admittance = sampled(
    (frequency_hz) => admittanceOf(Math.max(0, absorbed(frequency_hz))).admittance_ratio,
  );
  return [{ area_m2, stated: null, admittance }];
}

/** Samples an octave; octave bands of tables fall on them. */
const SAMPLES = 12;
const SAMPLED_FROM_HZ = 7.8125;

/**
 * A function of frequency, worked out at twelfths of an octave when first asked for and straight in between: absorption tables are
 * straight between their bands, and their inversion is dear.
 */
function sampled(of: (frequency_hz: number) => number): (frequency_hz: number) => number {
  const known: (number | undefined)[] = [];
  const at = (index: number) => {
    const value = known[index] ?? of(SAMPLED_FROM_HZ * 2 ** (index / SAMPLES));
    known[index] = value;
    return value;
  };
  return (frequency_hz) => {
    const place = Math.max(0, SAMPLES * Math.log2(frequency_hz / SAMPLED_FROM_HZ));
    const low = Math.floor(place);
    return at(low) + (place - low) * (at(low + 1) - at(low));
  };
}

/** Mean by area of one surface: what is stated outright, and what follows from absorption and may be scaled. */
interface MeanAdmittance {
  readonly area_m2: number;
  readonly stated: number;
  readonly absorbing: number;
  readonly imaginary: number;
}

function mean(list: readonly Patch[], frequency_hz: number): MeanAdmittance {
  const area_m2 = list.reduce((sum, patch) => sum + patch.area_m2, 0);
  if (!(0 < area_m2)) return { area_m2: 0, stated: 0, absorbing: 0, imaginary: 0 };
  const over = (value: (patch: Patch) => number) =>
    list.reduce((sum, patch) => sum + patch.area_m2 * value(patch), 0) / area_m2;
  return {
    area_m2,
    stated: over(({ stated }) => stated?.real ?? 0),
    absorbing: over(({ admittance }) => admittance(frequency_hz)),
    imaginary: over(({ stated }) => stated?.imaginary ?? 0),
  };
}

/** What the absorbing parts are multiplied by: so that the oblique modes decay as measured, and by the caller's factor. */
function scaleOf(
  parts: readonly MeanAdmittance[],
  frequency_hz: number,
  { measured, volume_m3, speedOfSound_m_s, factor }: DampingGiven,
): number {
  if (measured === null) return factor;
  const total = (value: (part: MeanAdmittance) => number) =>
    parts.reduce((sum, part) => sum + part.area_m2 * value(part), 0);
  const wanted =
    (decayConstant_per_s(decayTimeAt_s(measured, frequency_hz)) * volume_m3) / speedOfSound_m_s;
  const absorbing = total((part) => part.absorbing);
  if (!(0 < absorbing)) return factor;
  return factor * Math.max(LEAST_SCALE, (wanted - total((part) => part.stated)) / absorbing);
}

function isKnown(covering: Covering | null): covering is Covering {
  return covering !== null && absorption_ratio(covering, 63) !== null;
}

/** Bands in which single modes matter. */
const BASS_HZ: readonly number[] = [31.5, 63, 125, 250];

function isBeyond(covering: Covering | null): boolean {
  if (covering === null || covering.kind === 'admittance') return false;
  return BASS_HZ.some((frequency_hz) => {
    const absorption = absorption_ratio(covering, frequency_hz);
    return absorption !== null && GREATEST_ABSORPTION.absorption_ratio < absorption;
  });
}

/** What was assumed of the surfaces, in words. */
export function surfaceNotes({ from, assumed, beyond }: FieldSurfaces): readonly Note[] {
  const notes: Note[] = [];
  if (from === 'measured')
    notes.push({
      path: ['space', 'decay_time'],
      message:
        'Damping of the bass: absorption of the surfaces, scaled in each band so that oblique modes decay as measured; level below the lowest measured band',
    });
  if (0 < assumed.length)
    notes.push({
      path: ['space', 'surfaces'],
      message: `No covering known for ${assumed.join(', ')}: absorption 0.15 is assumed in the bass`,
    });
  if (0 < beyond.length)
    notes.push({
      path: ['space', 'surfaces'],
      message: `${beyond.join(', ')}: more absorption than a real admittance can give, 0.95 is taken`,
    });
  return notes;
}
