// Other names of units (`khz`, `feet`, `C`), and the unit that was meant.

import { editDistance } from '../near.ts';
import { type Dimension, findUnit, type Unit, unitsOf } from './units.ts';

/** Names that are not in the table, each with the symbol that is. In small letters. */
const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ['meter', 'm'],
  ['metre', 'm'],
  ['meters', 'm'],
  ['metres', 'm'],
  ['millimeters', 'mm'],
  ['millimetres', 'mm'],
  ['centimeters', 'cm'],
  ['centimetres', 'cm'],
  ['foot', 'ft'],
  ['feet', 'ft'],
  ['inch', 'in'],
  ['inches', 'in'],
  ['sec', 's'],
  ['secs', 's'],
  ['second', 's'],
  ['seconds', 's'],
  ['msec', 'ms'],
  ['milliseconds', 'ms'],
  ['us', 'µs'],
  ['usec', 'µs'],
  ['microseconds', 'µs'],
  ['mins', 'min'],
  ['minute', 'min'],
  ['minutes', 'min'],
  ['hr', 'h'],
  ['hrs', 'h'],
  ['hour', 'h'],
  ['hours', 'h'],
  ['smp', 'samples'],
  ['sample', 'samples'],
  ['hertz', 'Hz'],
  ['cps', 'Hz'],
  ['k', 'kHz'],
  ['c', '°C'],
  ['°', '°C'],
  ['deg c', '°C'],
  ['degc', '°C'],
  ['celsius', '°C'],
  ['f', '°F'],
  ['deg f', '°F'],
  ['degf', '°F'],
  ['fahrenheit', '°F'],
  ['kelvin', 'K'],
  ['percent', '%'],
  ['mbar', 'hPa'],
  ['mb', 'hPa'],
  ['mps', 'm/s'],
  ['fps', 'ft/s'],
  ['degree', 'deg'],
  ['degrees', 'deg'],
  ['decibel', 'dB'],
  ['decibels', 'dB'],
  ['db(a)', 'dBA'],
  ['db(c)', 'dBC'],
  ['db spl', 'dB'],
  ['dbspl', 'dB'],
  ['spl', 'dB'],
  ['volt', 'V'],
  ['volts', 'V'],
  ['db/octave', 'dB/oct'],
  ['db per octave', 'dB/oct'],
  ['kgs', 'kg'],
  ['kilo', 'kg'],
  ['kilos', 'kg'],
  ['lbs', 'lb'],
  ['pounds', 'lb'],
  ['watt', 'W'],
  ['watts', 'W'],
  ['amp', 'A'],
  ['amps', 'A'],
  ['ampere', 'A'],
  ['ohms', 'ohm'],
]);

/** The units that a misspelled one may have meant, likeliest first, at most three; none where nothing is near. */
export function nearUnits(written: string, dimensions: readonly Dimension[]): readonly Unit[] {
  const small = written.trim().toLowerCase();
  const other = OTHER_NAMES.get(small);
  const known = dimensions.map((dimension) =>
    other === undefined ? null : findUnit(other, dimension),
  );
  const [named] = known.filter((unit) => unit !== null);
  if (named !== undefined) return [named];

  const candidates = dimensions.flatMap(unitsOf).filter(({ symbol }) => !symbol.includes("'"));
  const sameLetters = candidates.filter(({ symbol }) => symbol.toLowerCase() === small);
  if (0 < sameLetters.length) return sameLetters.slice(0, 3);
  if (small.length < 2) return [];
  return candidates
    .map((unit) => ({ unit, distance: editDistance(small, unit.symbol.toLowerCase()) }))
    .filter(({ distance, unit }) => distance <= 1 && 1 < unit.symbol.length)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 3)
    .map(({ unit }) => unit);
}
