// The controls of a model: each key of `controls`, and of `each_port` under it, as a Control in SI.

import type { Control, DelayTelling, FilterFamily } from '../model/gear.ts';
import { numberSteps, steps, stepsBy, voltageSteps } from './gearSteps.ts';
import { below, entriesOf, itemsOf, type NamedPlace, type Place, textOf } from './place.ts';
import type { Reading } from './reading.ts';
import { number, oneOf, quantity, si } from './values.ts';

/** A device that is told lengths and does not say how it counts: dry air of 20 °C, ISO 9613-1. */
const DEVICE_SPEED_OF_SOUND_m_s = 343.2;

const FAMILIES: readonly FilterFamily[] = ['linkwitz_riley', 'butterworth', 'bessel'];

/** @param rate_hz the model's own sample rate; null where it has several, or none is known */
export function readControls(
  reading: Reading,
  place: Place,
  rate_hz: number | null,
): readonly Control[] {
  const ofDevice = entriesOf(place)
    .filter(({ name }) => name !== 'each_port')
    .map((entry) => readControl(reading, entry, false, rate_hz));
  const ofPorts = entriesOf(below(place, 'each_port')).map((entry) =>
    readControl(reading, entry, true, rate_hz),
  );
  return [...ofDevice, ...ofPorts].filter((control) => control !== null);
}

/** The places of all controls by their names, for references into the gear file. */
export function controlPlaces(place: Place): readonly NamedPlace[] {
  return [
    ...entriesOf(place).filter(({ name }) => name !== 'each_port'),
    ...entriesOf(below(place, 'each_port')),
  ];
}

function readControl(
  reading: Reading,
  place: NamedPlace,
  eachPort: boolean,
  rate_hz: number | null,
): Control | null {
  if (place.value?.kind !== 'map') return null;
  const common = { name: place.name, stages: [place.name], eachPort };
  switch (place.name) {
    case 'crossover':
      return { ...common, stages: textsOf(below(place, 'sets')), ...filter(reading, place) };
    case 'high_pass':
    case 'low_pass':
    case 'lfe_low_pass':
      return { ...common, ...filter(reading, place) };
    case 'gain':
    case 'level':
    case 'lfe_gain':
      return { ...common, kind: 'level', level_db: steps(reading, place, 'gain') };
    case 'input_sensitivity':
      return { ...common, kind: 'sensitivity', input_v: voltageSteps(reading, place) };
    case 'delay':
      return { ...common, ...delay(reading, place, rate_hz) };
    case 'phase':
      return {
        ...common,
        kind: 'phase',
        phase_rad: steps(reading, place, 'angle'),
        at_hz: si(reading, below(place, 'at'), 'frequency', 'optional'),
      };
    case 'polarity':
      return { ...common, kind: 'polarity', choices: textsOf(below(place, 'choices')) };
    case 'eq':
      return {
        ...common,
        kind: 'eq',
        bands: number(reading, below(place, 'bands'), 'optional') ?? 0,
        frequency_hz: steps(reading, below(place, 'frequency'), 'frequency'),
        gain_db: steps(reading, below(place, 'gain'), 'gain'),
        q: numberSteps(reading, below(place, 'q')),
      };
    case 'limiter':
      return { ...common, kind: 'switch', choices: ['on', 'bypass'] };
    default:
      return { ...common, kind: 'switch', choices: textsOf(below(place, 'choices')) };
  }
}

function filter(reading: Reading, place: Place): FilterPart {
  return {
    kind: 'filter',
    family: oneOf(reading, below(place, 'kind'), FAMILIES, 'optional') ?? 'linkwitz_riley',
    frequency_hz: steps(reading, below(place, 'frequency'), 'frequency'),
    slope_db_oct: steps(reading, below(place, 'slope'), 'slope'),
    bypass: textOf(below(place, 'bypass')) === 'true',
  };
}

type FilterPart = Omit<Extract<Control, { kind: 'filter' }>, 'name' | 'stages' | 'eachPort'>;
type DelayPart = Omit<Extract<Control, { kind: 'delay' }>, 'name' | 'stages' | 'eachPort'>;

function delay(reading: Reading, place: Place, rate_hz: number | null): DelayPart {
  const toldAs = delayTelling(reading, place, rate_hz);
  return {
    kind: 'delay',
    toldAs,
    delay_s: stepsBy(reading, place, (value) => delay_s(reading, value, toldAs)),
  };
}

function delayTelling(reading: Reading, place: Place, rate_hz: number | null): DelayTelling {
  const word = textOf(below(place, 'told_as'));
  if (word === 'samples') return { as: 'samples', rate_hz };
  if (word !== 'added_path' && word !== 'own_distance') return { as: 'time' };
  const stated = si(reading, below(place, 'speed_of_sound'), 'speed', 'optional');
  return { as: word, speedOfSound_m_s: stated ?? DEVICE_SPEED_OF_SOUND_m_s };
}

function delay_s(reading: Reading, place: Place, toldAs: DelayTelling): number | null {
  const told = quantity(reading, place, ['time', 'samples', 'length'], 'optional');
  if (told === null) return null;
  if (told.dimension === 'length')
    return 'speedOfSound_m_s' in toldAs ? told.value / toldAs.speedOfSound_m_s : null;
  if (told.dimension === 'samples') {
    const rate_hz = toldAs.as === 'samples' ? toldAs.rate_hz : null;
    return rate_hz === null ? null : told.value / rate_hz;
  }
  return told.value;
}

function textsOf(place: Place): readonly string[] {
  return itemsOf(place)
    .map(textOf)
    .filter((text) => text !== null);
}
