// Levels in bands as written, as the octaves of the noise curves: octaves as they are, third octaves summed three by three.

import type { BackgroundNoise } from '../../schema/model/room.ts';
import { power_db, power_ratio } from '../acoustics/decibel.ts';
import { nrCurve } from '../acoustics/noiseCurves.ts';
import { bandHolding, exactFrequency_hz } from '../acoustics/thirdOctave.ts';
import { weighting_db } from '../acoustics/weighting.ts';

export interface NoiseOctave {
  readonly nominal_hz: number;
  /** Unweighted. */
  readonly level_db: number;
  readonly key: string;
}

export interface NoiseOctaves {
  /** Ascending. */
  readonly octaves: readonly NoiseOctave[];
  /** Keys that belong to no octave of the curves, or to one of which a third is missing. */
  readonly leftOut: readonly string[];
}

/** As the curves have them. */
export const OCTAVES_HZ: readonly number[] = nrCurve(0).map(({ nominal_hz }) => nominal_hz);
/** Octaves that have no curve; they do not make a list of octaves one of thirds. */
const OTHER_OCTAVES_HZ: readonly number[] = [16, 16_000];
/** How far a frequency as written may lie from the band's name: 31 Hz and 62.5 Hz are meant. */
const LEEWAY = 0.03;

/** A list with any band between the octaves is taken for one of third octaves. */
export function noiseOctaves(given: NonNullable<BackgroundNoise['bands']>): NoiseOctaves {
  const bands = given.map(bandOf);
  const isOfThirds = bands.some(
    ({ nominal_hz }) =>
      nominal_hz !== null && ![...OCTAVES_HZ, ...OTHER_OCTAVES_HZ].includes(nominal_hz),
  );
  const used = new Set<string>();
  const octaves = OCTAVES_HZ.flatMap((nominal_hz): readonly NoiseOctave[] => {
    const parts = isOfThirds ? thirdsOf_hz(nominal_hz) : [nominal_hz];
    const found = parts.map((part_hz) =>
      loudest(bands.filter((one) => one.nominal_hz === part_hz)),
    );
    const top = loudest(found.filter((one) => one !== null));
    if (top === null || found.includes(null)) return [];
    for (const { nominal_hz: part_hz, key } of bands)
      if (part_hz !== null && parts.includes(part_hz)) used.add(key);
    const power = found.reduce((sum, one) => sum + power_ratio(one?.level_db ?? -Infinity), 0);
    return [{ nominal_hz, level_db: power_db(power), key: top.key }];
  });
  return { octaves, leftOut: given.map(({ key }) => key).filter((key) => !used.has(key)) };
}

interface Band {
  /** null for a frequency that names no band. */
  readonly nominal_hz: number | null;
  readonly level_db: number;
  readonly key: string;
}

function bandOf({
  key,
  frequency_hz,
  level_db,
  weighting,
}: NonNullable<BackgroundNoise['bands']>[number]): Band {
  const { nominal_hz, exact_hz } = bandHolding(frequency_hz, 3);
  const isBand = Math.abs(frequency_hz / nominal_hz - 1) <= LEEWAY;
  return {
    key,
    nominal_hz: isBand ? nominal_hz : null,
    level_db: level_db - weighting_db(weighting, exact_hz),
  };
}

/** The band itself and its neighbours, nominal. */
function thirdsOf_hz(nominal_hz: number): readonly number[] {
  const exact_hz = exactFrequency_hz(nominal_hz);
  const third_ratio = 10 ** 0.1;
  return [exact_hz / third_ratio, exact_hz, exact_hz * third_ratio].map(
    (frequency_hz) => bandHolding(frequency_hz, 3).nominal_hz,
  );
}

function loudest(bands: readonly Band[]): Band | null {
  return bands.reduce<Band | null>(
    (top, band) => (top === null || top.level_db < band.level_db ? band : top),
    null,
  );
}
