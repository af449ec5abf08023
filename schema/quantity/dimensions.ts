// What each dimension is called in a sentence, and an example of it.

import type { Dimension } from './units.ts';

interface DimensionWords {
  /** As in "a length is expected here". */
  readonly name: string;
  readonly example: string;
}

const WORDS: Readonly<Record<Dimension, DimensionWords>> = {
  length: { name: 'a length', example: '1.20 m' },
  time: { name: 'a time', example: '1.24 ms' },
  samples: { name: 'a number of samples', example: '60 samples' },
  period: { name: 'a time by the calendar', example: '12 months' },
  frequency: { name: 'a frequency', example: '80 Hz' },
  temperature: { name: 'a temperature', example: '21.5 °C' },
  ratio: { name: 'a share in per cent', example: '45 %' },
  pressure: { name: 'an air pressure', example: '1013 hPa' },
  speed: { name: 'a speed', example: '343.2 m/s' },
  angle: { name: 'an angle', example: '110°' },
  gain: { name: 'a gain', example: '-3.5 dB' },
  sound_level: { name: 'a sound level', example: '79 dBC' },
  voltage: { name: 'a signal level or voltage', example: '18 dBu' },
  full_scale: { name: 'a digital level', example: '-20 dBFS' },
  slope: { name: 'a slope', example: '24 dB/oct' },
  mass: { name: 'a mass', example: '19 kg' },
  power: { name: 'a power', example: '500 W' },
  current: { name: 'a current', example: '16 A' },
  resistance: { name: 'an impedance', example: '8 Ω' },
};

/** "a length", "a time or a number of samples". */
export function dimensionName(dimensions: readonly Dimension[]): string {
  const names = dimensions.map((dimension) => WORDS[dimension].name);
  if (names.length < 3) return names.join(' or ');
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}`;
}

/** "a length is expected here, such as `1.20 m`" */
export function expectedQuantity(dimensions: readonly Dimension[], example?: string): string {
  const [first] = dimensions;
  const such = example ?? (first === undefined ? '' : WORDS[first].example);
  return `${dimensionName(dimensions)} is expected here, such as \`${such}\``;
}
