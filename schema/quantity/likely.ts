// Which unit a bare number most likely has, by its dimension and size: `x: 4620` was meant in mm.

import { type Dimension, findUnit, toSi, type Unit } from './units.ts';

interface Guess {
  readonly unit: string;
  /** Sizes that the number would plausibly have in this unit. */
  readonly from: number;
  readonly to: number;
}

const guess = (unit: string, from = 0, to = Number.POSITIVE_INFINITY): Guess => ({
  unit,
  from,
  to,
});

/** Common practice, no source: sizes that rooms, gear and settings have. */
const GUESSES: Readonly<Record<Dimension, readonly Guess[]>> = {
  length: [
    guess('m', 0, 30),
    guess('mm', 100),
    guess('cm', 30, 1500),
    guess('ft', 3, 60),
    guess('in', 12, 400),
  ],
  time: [guess('ms', 0.3, 400), guess('s', 0.01, 10), guess('min', 5, 120), guess('µs', 10)],
  samples: [guess('samples')],
  period: [guess('months', 1, 60), guess('weeks', 1, 60), guess('days', 7), guess('years', 1, 10)],
  frequency: [guess('Hz', 10), guess('kHz', 0, 20)],
  temperature: [guess('°C', 0, 40), guess('°F', 41, 110), guess('K', 250)],
  ratio: [guess('%')],
  pressure: [guess('hPa', 500, 1200), guess('kPa', 50, 120), guess('Pa', 50_000)],
  speed: [guess('m/s', 300, 400), guess('ft/s', 900)],
  angle: [guess('°'), guess('deg')],
  gain: [guess('dB')],
  sound_level: [guess('dBC'), guess('dB'), guess('dBA')],
  voltage: [guess('dBu', 0, 30), guess('V'), guess('dBV', 0, 20)],
  full_scale: [guess('dBFS')],
  slope: [guess('dB/oct')],
  mass: [guess('kg'), guess('lb'), guess('g', 500)],
  power: [guess('W', 5), guess('kW', 0, 5)],
  current: [guess('A', 0, 100), guess('mA', 100)],
  resistance: [guess('Ω'), guess('kΩ')],
};

/** Room rates: `sample_rate: 48` was meant in kHz, since its bounds leave nothing else. */
export function likelyUnits(
  value: number,
  dimensions: readonly Dimension[],
  allowed: (si: number, dimension: Dimension) => boolean,
): readonly Unit[] {
  const size = Math.abs(value);
  const fitting = dimensions.flatMap((dimension) =>
    GUESSES[dimension].flatMap(({ unit: symbol, from, to }) => {
      const unit = findUnit(symbol, dimension);
      if (unit === null || !allowed(toSi(value, unit), dimension)) return [];
      return [{ unit, plausible: from <= size && size <= to }];
    }),
  );
  const plausible = fitting.filter((one) => one.plausible);
  return (0 < plausible.length ? plausible : fitting).slice(0, 3).map((one) => one.unit);
}
