// A grid of frequencies that somebody asks for, `20:200:1`, and curves read off at it.

export interface OnGrid {
  readonly frequency_hz: readonly number[];
  readonly values: (values: readonly number[]) => readonly number[];
  readonly phases: (phase_rad: readonly number[]) => readonly number[];
}

/** More than any question needs, and a bound on what a slip of the pen may cost. */
const MOST_POINTS = 20_000;

/**
 * `from:to:step` in Hz, both ends included.
 * @returns null for anything else, and for more points than anybody needs
 */
export function readGrid(text: string): readonly number[] | null {
  const [from_hz = Number.NaN, to_hz = Number.NaN, step_hz = Number.NaN, ...rest] = text
    .split(':')
    .map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  if (0 < rest.length || !(0 < from_hz) || !(from_hz <= to_hz) || !(0 < step_hz)) return null;
  // A step that does not divide the span is allowed; rounding of the division is not to lose the last point.
  const count = Math.floor((to_hz - from_hz) / step_hz + 1e-9) + 1;
  if (!(count <= MOST_POINTS)) return null;
  return Array.from({ length: count }, (_, index) => tidy(from_hz + index * step_hz));
}

function tidy(frequency_hz: number): number {
  return Number(frequency_hz.toPrecision(12));
}

/**
 * Straight between the curve's own points, over the logarithm of frequency; nothing is said beyond its ends.
 *
 * @param own_hz the curve's own grid, ascending
 * @param wanted_hz ascending; null for the own grid
 */
export function atFrequencies(
  own_hz: readonly number[],
  wanted_hz: readonly number[] | null,
): OnGrid {
  if (wanted_hz === null)
    return { frequency_hz: own_hz, values: (values) => values, phases: (phases) => phases };
  const [first = 0, last = 0] = [own_hz[0], own_hz.at(-1)];
  const inside = wanted_hz.filter((f_hz) => first <= f_hz && f_hz <= last);
  const places = inside.map((f_hz) => placeIn(own_hz, f_hz));
  const read = (between: (low: number, high: number, share: number) => number) => {
    return (values: readonly number[]) =>
      places.map(({ index, share }) => {
        const low = values[index] ?? 0;
        return between(low, values[index + 1] ?? low, share);
      });
  };
  return {
    frequency_hz: inside,
    values: read((low, high, share) => Math.round((low + share * (high - low)) * 100) / 100),
    phases: read((low, high, share) => wrapped(low + share * wrapped(high - low))),
  };
}

function placeIn(
  own_hz: readonly number[],
  frequency_hz: number,
): { readonly index: number; readonly share: number } {
  const after = own_hz.findIndex((f_hz) => frequency_hz < f_hz);
  if (after < 1) return { index: after === 0 ? 0 : own_hz.length - 1, share: 0 };
  const [low, high] = [own_hz[after - 1] ?? 1, own_hz[after] ?? 1];
  return { index: after - 1, share: Math.log(frequency_hz / low) / Math.log(high / low) };
}

/** Into −π … π. */
function wrapped(phase_rad: number): number {
  return phase_rad - 2 * Math.PI * Math.round(phase_rad / (2 * Math.PI));
}
