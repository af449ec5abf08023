// One model of a gear file as Gear in SI.

import type { Gear, GearKind, LowEnd, MaxLevel } from '../model/gear.ts';
import { readControls } from './gearControls.ts';
import { readPaths } from './gearPaths.ts';
import { responseFiles } from './gearResponses.ts';
import {
  below,
  entriesOf,
  itemsOf,
  mapOf,
  type NamedPlace,
  type Place,
  scalarOf,
  textOf,
} from './place.ts';
import type { Reading } from './reading.ts';
import { oneOf, quantity, si, spectrum, text } from './values.ts';

const KINDS: readonly GearKind[] = [
  'loudspeaker',
  'subwoofer',
  'interface',
  'controller',
  'processor',
  'amplifier',
  'switch',
];

/** How the level of a data sheet stands to half space: each further surface near a small source adds 6 dB of pressure. */
const OVER_HALF_SPACE_DB: Readonly<Record<string, number>> = { quarter: 6, eighth: 12 };

/** @returns null where not even the kind can be read */
export function readModel(reading: Reading, place: NamedPlace): Gear | null {
  const kind = oneOf(reading, below(place, 'kind'), KINDS, 'needed');
  if (kind === null) return null;
  const sampleRate_hz = onlyRate(reading, below(place, 'sample_rates'));
  const ports = portsOf(place, kind);
  const buses = entriesOf(below(place, 'buses'));
  const controls = below(place, 'controls');
  const optional = 'optional';
  const files = responseFiles(reading, place);
  return {
    id: place.name,
    kind,
    maker: text(reading, below(place, 'maker'), optional),
    size: size(reading, below(place, 'size')),
    mass_kg: si(reading, below(place, 'mass'), 'mass', optional),
    lowEnd: lowEnd(reading, below(place, 'low_end')),
    highEnd: highEnd(reading, below(place, 'high_end')),
    maxLevel: maxLevel(reading, below(place, 'max_level')),
    fullLevelInput_v: si(reading, below(place, 'full_level_input'), 'voltage', optional),
    fullLevelOutput_v: si(reading, below(place, 'full_level_output'), 'voltage', optional),
    ...noise(reading, place),
    gain_db: si(reading, below(place, 'gain'), 'gain', optional),
    power: power(reading, below(place, 'power')),
    latency_s: latency(reading, below(place, 'latency'), sampleRate_hz),
    sampleRate_hz,
    inputs: ports.inputs ?? [],
    outputs: ports.outputs ?? [],
    buses: buses.map((bus) => ({
      name: bus.name,
      sum_db: si(reading, below(bus, 'sum'), 'gain', optional) ?? 0,
    })),
    paths: readPaths(reading, below(place, 'paths'), {
      ...ports,
      buses: buses.map(({ name }) => name),
      controls: controls.value === null ? null : controlNames(controls),
      hasDriver: hasDriver(kind),
    }),
    controls: readControls(reading, controls, sampleRate_hz),
    ...(files.length === 0 ? {} : { responseFiles: files }),
  };
}

/** Whether a path may end in the driver itself. */
export function hasDriver(kind: GearKind): boolean {
  return kind === 'loudspeaker' || kind === 'subwoofer';
}

/** The ports that a model names; null where it does not say which it has. */
export function portsOf(
  model: Place,
  kind: GearKind,
): { readonly inputs: readonly string[] | null; readonly outputs: readonly string[] | null } {
  const inputs = names(below(model, 'inputs'));
  const outputs = names(below(model, 'outputs'));
  // What is only a loudspeaker has no outputs, what is only a source no inputs, and neither has to say so.
  return {
    inputs: inputs ?? (outputs !== null && kind === 'interface' ? [] : null),
    outputs: outputs ?? (inputs !== null && hasDriver(kind) ? [] : null),
  };
}

function names(place: Place): readonly string[] | null {
  if (place.value?.kind !== 'list') return null;
  return itemsOf(place)
    .map((item) => scalarOf(item)?.text ?? null)
    .filter((name) => name !== null);
}

function controlNames(controls: Place): readonly string[] {
  const ofPorts = entriesOf(below(controls, 'each_port')).map(({ name }) => name);
  const ofDevice = entriesOf(controls).map(({ name }) => name);
  return [...ofDevice.filter((name) => name !== 'each_port'), ...ofPorts];
}

function onlyRate(reading: Reading, place: Place): number | null {
  const rates = itemsOf(place).map((rate) => si(reading, rate, 'frequency', 'optional'));
  return rates.length === 1 ? (rates[0] ?? null) : null;
}

function size(reading: Reading, place: Place): Gear['size'] {
  const width_m = si(reading, below(place, 'width'), 'length', 'optional');
  const depth_m = si(reading, below(place, 'depth'), 'length', 'optional');
  const height_m = si(reading, below(place, 'height'), 'length', 'optional');
  return width_m === null || depth_m === null || height_m === null
    ? null
    : { width_m, depth_m, height_m };
}

function lowEnd(reading: Reading, place: Place): LowEnd | null {
  const minus6db_hz = si(reading, below(place, 'minus_6_db'), 'frequency', 'optional');
  if (minus6db_hz === null) return null;
  const box = textOf(below(place, 'kind'));
  // A passive radiator takes the place of the vent: same order, same slope.
  const kind =
    box === 'passive_radiator' ? 'vented' : box === 'sealed' || box === 'vented' ? box : null;
  const protection = below(place, 'protection');
  const frequency_hz = si(reading, below(protection, 'frequency'), 'frequency', 'optional');
  return {
    minus6db_hz,
    slope_db_oct:
      si(reading, below(place, 'slope'), 'slope', 'optional') ?? (kind === 'sealed' ? 12 : 24),
    kind,
    protection:
      frequency_hz === null
        ? null
        : {
            frequency_hz,
            slope_db_oct: si(reading, below(protection, 'slope'), 'slope', 'optional') ?? 24,
          },
    responseFile: text(reading, below(place, 'response'), 'optional'),
  };
}

function highEnd(reading: Reading, place: Place): Gear['highEnd'] {
  const minus6db_hz = si(reading, below(place, 'minus_6_db'), 'frequency', 'optional');
  if (minus6db_hz === null) return null;
  // A cone's own fall at its upper end is of second order where nothing is said. Common practice, no source.
  const slope_db_oct = si(reading, below(place, 'slope'), 'slope', 'optional') ?? 12;
  return { minus6db_hz, slope_db_oct };
}

function maxLevel(reading: Reading, place: Place): MaxLevel | null {
  const distance_m = si(reading, below(place, 'at'), 'length', 'optional');
  const space = textOf(below(place, 'space'));
  if (distance_m === null || space === null || mapOf(below(place, 'peak')) === null) return null;
  const over_db = OVER_HALF_SPACE_DB[space] ?? 0;
  const peak_db = spectrum(
    reading,
    below(place, 'peak'),
    (level) => si(reading, level, 'sound_level', 'optional'),
    'optional',
  );
  if (peak_db === null) return null;
  return {
    distance_m,
    space: space === 'full' ? 'full' : 'half',
    peak_db: { ...peak_db, value: peak_db.value.map((level_db) => level_db - over_db) },
  };
}

/** In dBFS it counts from the full level of the outputs; a level of another weighting than A tells nothing of this noise. */
function noise(reading: Reading, place: Place): Pick<Gear, 'outputNoise_v' | 'selfNoise_dba'> {
  const output = quantity(
    reading,
    below(place, 'output_noise'),
    ['voltage', 'full_scale'],
    'optional',
  );
  const full_v = si(reading, below(place, 'full_level_output'), 'voltage', 'optional');
  const isRelative = output?.dimension === 'full_scale';
  const outputNoise_v =
    output === null || !isRelative
      ? (output?.value ?? null)
      : full_v === null
        ? null
        : full_v * 10 ** (output.value / 20);
  const self = quantity(reading, below(place, 'self_noise'), ['sound_level'], 'optional');
  return {
    ...(outputNoise_v === null ? {} : { outputNoise_v }),
    ...(self?.unit === 'dBA' ? { selfNoise_dba: self.value } : {}),
  };
}

function power(reading: Reading, place: Place): Gear['power'] {
  if (mapOf(place) === null) return null;
  return {
    idle_w: si(reading, below(place, 'idle'), 'power', 'optional'),
    rated_w: si(reading, below(place, 'rated'), 'power', 'optional'),
    inrush_a: si(reading, below(place, 'inrush'), 'current', 'optional'),
  };
}

function latency(reading: Reading, place: Place, rate_hz: number | null): Gear['latency_s'] {
  const ports = mapOf(place) === null ? [{ ...place, name: '*' }] : entriesOf(place);
  const latencies: { readonly port: string; readonly latency_s: number }[] = [];
  for (const port of ports) {
    const told = quantity(reading, port, ['time', 'samples'], 'optional');
    if (told === null) continue;
    const perUnit_s = told.dimension === 'time' ? 1 : rate_hz === null ? null : 1 / rate_hz;
    if (perUnit_s !== null) latencies.push({ port: port.name, latency_s: told.value * perUnit_s });
  }
  return latencies;
}
