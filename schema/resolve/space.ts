// The space: its shape, surfaces, decay, noise and fixtures, and the air in it.

import type { AirGiven, Fixture, Space, Surface } from '../model/room.ts';
import { readBackgroundNoise } from './backgroundNoise.ts';
import { heightKeysOf, readCeiling } from './ceiling.ts';
import { readCovering } from './covering.ts';
import { below, entriesOf, mapOf, type NamedPlace, type Place, textOf } from './place.ts';
import { readWalls } from './plan.ts';
import type { Reading } from './reading.ts';
import { referByKey, referTo } from './referTo.ts';
import type { Scope } from './scope.ts';
import { surfaceNames, wallNames } from './surfaceNames.ts';
import { missing, si, span, spectrum, text } from './values.ts';

export function readSpace(reading: Reading, place: Place, scope: Scope): Space {
  const heightKeys = heightKeysOf(place);
  return {
    shape: shape(reading, place),
    ...(heightKeys.length === 0 ? {} : { heightKeys }),
    surfaces: surfaces(reading, below(place, 'surfaces'), scope),
    decayTime_s: spectrum(
      reading,
      below(place, 'decay_time'),
      (time) => si(reading, time, 'time', 'needed'),
      'needed',
    ),
    backgroundNoise: readBackgroundNoise(reading, below(place, 'background_noise')),
    fixtures: entriesOf(below(place, 'fixtures'))
      .map((entry) => fixture(reading, entry, scope))
      .filter((entry) => entry !== null),
  };
}

export function readAir(reading: Reading, place: Place): AirGiven {
  const speed = below(place, 'speed_of_sound');
  const speedOfSound_m_s = si(reading, speed, 'speed', 'optional');
  return {
    temperature_k: si(
      reading,
      below(place, 'temperature'),
      'temperature',
      speed.key === null ? 'needed' : 'optional',
    ),
    relativeHumidity: si(reading, below(place, 'humidity'), 'ratio', 'optional'),
    pressure_pa: si(reading, below(place, 'pressure'), 'pressure', 'optional'),
    speedOfSound_m_s,
  };
}

function shape(reading: Reading, space: Place): Space['shape'] {
  const plan = below(space, 'plan');
  if (plan.key !== null) {
    if (mapOf(plan) === null) {
      missing(reading, plan, 'needed');
      return null;
    }
    const walls = readWalls(reading, plan);
    return walls && { kind: 'plan', walls, ceiling: readCeiling(reading, space, walls) };
  }
  const size = below(space, 'size');
  if (mapOf(size) === null) {
    missing(reading, size, 'needed');
    return null;
  }
  const width_m = si(reading, below(size, 'width'), 'length', 'needed');
  const depth_m = si(reading, below(size, 'depth'), 'length', 'needed');
  const height_m = si(reading, below(size, 'height'), 'length', 'needed');
  if (width_m === null || depth_m === null || height_m === null) return null;
  return { kind: 'box', width_m, depth_m, height_m };
}

function surfaces(reading: Reading, place: Place, scope: Scope): readonly Surface[] {
  const read: Surface[] = [];
  const names = surfaceNames(scope);
  for (const entry of entriesOf(place)) {
    const isKnown = referByKey(reading, entry, names);
    const covering = readCovering(reading, entry, scope.context.materials);
    if (isKnown && covering !== null) read.push({ name: entry.name, covering });
  }
  return read;
}

function fixture(reading: Reading, place: NamedPlace, scope: Scope): Fixture | null {
  const id = place.name;
  const kind = textOf(below(place, 'kind'));
  if (kind === 'panel') {
    const wall = referTo(reading, below(place, 'wall'), wallNames(scope));
    if (wall === null) return null;
    return {
      id,
      kind,
      wall,
      along_m: span(reading, below(place, 'along'), 'needed'),
      z_m: span(reading, below(place, 'z'), 'needed'),
      covering: readCovering(reading, below(place, 'surface'), scope.context.materials),
    };
  }
  if (kind !== 'keep_clear' && kind !== 'obstacle') return null;
  return {
    id,
    kind,
    x_m: span(reading, below(place, 'x'), 'needed'),
    y_m: span(reading, below(place, 'y'), 'needed'),
    z_m: span(reading, below(place, 'z'), kind === 'obstacle' ? 'needed' : 'optional'),
    because: text(reading, below(place, 'because'), 'optional'),
  };
}
