// One setting's value: read as its control takes it, or as its key says where the control is not known.

import type { Control } from '../model/gear.ts';
import type { SettingValue } from '../model/room.ts';
import { nearNames } from '../near.ts';
import {
  below,
  entriesOf,
  isUnknown,
  mapOf,
  type NamedPlace,
  type Place,
  scalarOf,
  textOf,
} from './place.ts';
import { isFaulty, type Reading, recordGap, tell } from './reading.ts';
import { siOf } from './si.ts';
import { listed, replaceWord } from './unknownName.ts';
import { number, quantity, si } from './values.ts';

type DistributiveOmit<Value, Keys extends PropertyKey> = Value extends unknown
  ? Omit<Value, Keys>
  : never;

/** A setting without where it stands. */
export type ReadSetting = DistributiveOmit<SettingValue, 'control' | 'port' | 'set' | 'path'>;

type Kind = Control['kind'];

const KIND_OF_KEY: Readonly<Record<string, Kind>> = {
  crossover: 'filter',
  high_pass: 'filter',
  low_pass: 'filter',
  lfe_low_pass: 'filter',
  delay: 'delay',
  gain: 'level',
  level: 'level',
  lfe_gain: 'level',
  input_sensitivity: 'sensitivity',
  phase: 'phase',
  polarity: 'polarity',
  eq: 'eq',
};

/**
 * @param control null where the gear or its controls are not known: then the key says what it is, and no choice is checked
 * @param rate_hz at which the device runs; null where nothing tells
 * @returns null where nothing could be read
 */
export function readSetting(
  reading: Reading,
  place: NamedPlace,
  control: Control | null,
  rate_hz: number | null,
): ReadSetting | null {
  if (isUnknown(place)) {
    recordGap(reading, place);
    return { kind: 'unknown', told: 'unknown' };
  }
  if (place.value === null || isFaulty(reading, place.path)) {
    recordGap(reading, place);
    return null;
  }
  const kind = control?.kind ?? KIND_OF_KEY[place.name] ?? 'switch';
  if (textOf(place) === 'bypass' && kind !== 'switch') return bypass(reading, place, control);
  switch (kind) {
    case 'filter':
      return filter(reading, place);
    case 'delay':
      return delay(reading, place, control, rate_hz);
    case 'level': {
      const level_db = si(reading, place, 'gain', 'needed');
      return level_db === null ? null : { kind, level_db, told: told(place) };
    }
    case 'sensitivity': {
      const input_v = si(reading, place, 'voltage', 'needed');
      return input_v === null ? null : { kind: 'voltage', input_v, told: told(place) };
    }
    case 'phase': {
      const phase_rad = si(reading, place, 'angle', 'needed');
      return phase_rad === null ? null : { kind, phase_rad, told: told(place) };
    }
    case 'eq':
      return eq(reading, place, control);
    case 'polarity':
    case 'switch':
      return choice(reading, place, control);
  }
}

function told(place: Place): string {
  return scalarOf(place)?.text ?? '';
}

function bypass(reading: Reading, place: Place, control: Control | null): ReadSetting | null {
  if (control?.kind === 'filter' && !control.bypass) {
    tell(reading, place, {
      code: 'reference/choice',
      message: `\`${control.name}\` of this device cannot be bypassed`,
    });
    return null;
  }
  return { kind: 'bypass', told: 'bypass' };
}

function filter(reading: Reading, place: Place): ReadSetting | null {
  if (mapOf(place) === null) {
    recordGap(reading, place);
    return null;
  }
  const frequency = below(place, 'frequency');
  const slope = below(place, 'slope');
  return {
    kind: 'filter',
    frequency_hz: si(reading, frequency, 'frequency', 'needed'),
    slope_db_oct: si(reading, slope, 'slope', 'needed'),
    told: [told(frequency), told(slope)].filter((text) => text !== '').join(', '),
  };
}

/** What is expected where a device is told its delay in another way. */
const TELLINGS = {
  time: { dimensions: ['time'], words: 'a time, such as `1.25 ms`' },
  samples: { dimensions: ['samples'], words: 'a number of samples, such as `60 samples`' },
  added_path: { dimensions: ['length'], words: 'the added path as a length, such as `0.42 m`' },
  own_distance: {
    dimensions: ['length'],
    words: "the loudspeaker's own distance, such as `2.40 m`",
  },
} as const;

function delay(
  reading: Reading,
  place: Place,
  control: Control | null,
  rate_hz: number | null,
): ReadSetting | null {
  const read = quantity(reading, place, ['time', 'samples', 'length'], 'needed');
  if (read === null) return null;
  const toldAs = control?.kind === 'delay' ? control.toldAs : null;
  if (toldAs !== null && !TELLINGS[toldAs.as].dimensions.some((one) => one === read.dimension)) {
    tell(reading, place, {
      code: 'reference/told-as',
      message: `This device takes its delay as ${TELLINGS[toldAs.as].words}`,
    });
    recordGap(reading, place);
    return null;
  }
  if (read.dimension === 'time') return { kind: 'delay', delay_s: read.value, told: told(place) };
  if (read.dimension === 'length')
    return { kind: 'length', length_m: read.value, told: told(place) };
  const ownRate_hz = toldAs?.as === 'samples' ? toldAs.rate_hz : null;
  const known_hz = rate_hz ?? ownRate_hz ?? reading.defaultSampleRate_hz;
  return known_hz === null
    ? { kind: 'samples', count: read.value, told: told(place) }
    : { kind: 'delay', delay_s: read.value / known_hz, told: told(place) };
}

function eq(reading: Reading, place: Place, control: Control | null): ReadSetting | null {
  if (mapOf(place) === null) {
    recordGap(reading, place);
    return null;
  }
  const entries = entriesOf(place);
  if (control?.kind === 'eq' && 0 < control.bands && control.bands < entries.length) {
    const extra = entries[control.bands];
    if (extra !== undefined)
      tell(
        reading,
        { ...extra, value: null },
        {
          code: 'reference/choice',
          message: `This device has ${control.bands} EQ ${control.bands === 1 ? 'band' : 'bands'}; there are ${entries.length} here`,
        },
      );
  }
  const bands = entries
    .filter((band) => mapOf(band) !== null)
    .map((band) => ({
      name: band.name,
      frequency_hz: si(reading, below(band, 'frequency'), 'frequency', 'needed'),
      gain_db: si(reading, below(band, 'gain'), 'gain', 'optional'),
      q: number(reading, below(band, 'q'), 'optional'),
    }));
  return { kind: 'eq', bands, told: bands.map(({ name }) => name).join(', ') };
}

function choice(reading: Reading, place: Place, control: Control | null): ReadSetting | null {
  // A limiter's threshold is a map; which device takes which is not checked.
  const scalar = scalarOf(place);
  if (scalar === null) {
    const threshold = told(below(place, 'threshold'));
    return threshold === '' ? null : { kind: 'choice', choice: threshold, told: threshold };
  }
  const { text } = scalar;
  const choices = control?.kind === 'switch' || control?.kind === 'polarity' ? control.choices : [];
  const meant = choices.find((candidate) => isSame(candidate, text));
  if (choices.length === 0 || meant !== undefined)
    return { kind: 'choice', choice: meant ?? text, told: text };
  const near = nearNames(text, choices);
  tell(reading, place, {
    code: 'reference/choice',
    message: `\`${text}\` is not a position of \`${control?.name ?? ''}\`; it has ${listed(choices, 'and')}`,
    fixes: (near.length === 0 && choices.length <= 4 ? choices : near).map((name) =>
      replaceWord(text, name, scalar.range),
    ),
  });
  return null;
}

/** `30 min` and `0.5 h` are one position. */
function isSame(a: string, b: string): boolean {
  if (a === b) return true;
  const [time, other] = [siOf(a, ['time']), siOf(b, ['time'])];
  return time !== null && other !== null && time.value === other.value;
}
