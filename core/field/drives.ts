// Drives: every way in which a channel sets a loudspeaker going, as volume velocity by frequency, at an absolute or a matched level.

import type { Gear } from '../../schema/model/gear.ts';
import type { Point } from '../../schema/model/quantities.ts';
import type { Room } from '../../schema/model/room.ts';
import { type ComplexResponse, productOf } from '../acoustics/complex.ts';
import { distance_m } from '../acoustics/point.ts';
import type { LevelBasis } from '../fieldFigures.ts';
import { phaseOf } from '../parts/crossoverSides.ts';
import { type PlacedSource, placedSources, referenceSeat } from '../parts/referenceSeat.ts';
import type { Note } from '../setup.ts';
import { setsOf, type TracedPath } from '../signal/traced.ts';
import { pathResponse } from './path.ts';
import { drivenLevel, naturalResponse } from './source.ts';

/** One way from a channel to a driver, ready to be multiplied by the room. */
export interface Drive {
  readonly source: PlacedSource;
  readonly set: string | null;
  /** null where nothing is wired to the driver. */
  readonly channel: string | null;
  readonly isLfe: boolean;
  /** Free-field pressure at 1 m in full space, Pa RMS, by frequency: electrical path, natural roll-off, level. */
  readonly pressure_pa: ComplexResponse;
}

export interface Drives {
  readonly drives: readonly Drive[];
  readonly level: LevelBasis;
  readonly notes: readonly Note[];
}

/** A way without its level: what does not depend on where things stand. */
export interface Way {
  readonly target: string;
  readonly set: string | null;
  readonly channel: string | null;
  readonly isLfe: boolean;
  /** null where nothing is wired to the driver. */
  readonly path: TracedPath | null;
  /** 1 in the pass band. */
  readonly response: ComplexResponse;
}

/** Monitors are calibrated with pink noise at −20 dBFS. @source common practice of film and mixing standards (SMPTE RP 200, EBU Tech 3276) */
export const INPUT_DBFS = -20;
/** Stands in where the room has no reference level: an ordinary one of rooms of this size, common practice, no source. */
const USUAL_LEVEL_DBSPL = 80;
const REFERENCE_PA = 20e-6;

/** All ways, wired ones by their path, the others as bare loudspeakers. */
export function waysOf(
  room: Pick<Room, 'speakers' | 'subwoofers' | 'sets'>,
  paths: readonly TracedPath[],
  frequency_hz: readonly number[],
): readonly Way[] {
  const things = [...room.speakers, ...room.subwoofers];
  return things.flatMap(({ id, gear }): readonly Way[] => {
    const natural = naturalResponse(gear, frequency_hz);
    const own = paths.filter(({ target }) => target === id);
    if (own.length === 0) {
      const bare = { target: id, channel: null, isLfe: false, path: null, response: natural };
      return setsOf(room, id).map((set) => ({ ...bare, set }));
    }
    return own.map((path) => ({
      target: id,
      set: path.set,
      channel: path.channel ?? `${path.source.device}.${path.source.port}`,
      isLfe: path.isLfe,
      path,
      response: productOf(natural, pathResponse(path, frequency_hz)),
    }));
  });
}

/** A way's response at a level: Pa RMS at 1 m in full space. */
export type AtLevel = (response: ComplexResponse, level_dbspl: number) => ComplexResponse;

/** Gives the very same pressure for the same response and level. */
export function createAtLevel(): AtLevel {
  const last = new WeakMap<ComplexResponse, { level_dbspl: number; pressure: ComplexResponse }>();
  return (response, level_dbspl) => {
    const known = last.get(response);
    if (known?.level_dbspl === level_dbspl) return known.pressure;
    const pressure = atLevel(response, level_dbspl);
    last.set(response, { level_dbspl, pressure });
    return pressure;
  };
}

/** The ways with their levels, for drivers whose place is known. */
export function drivesOf(
  room: Pick<
    Room,
    'speakers' | 'subwoofers' | 'devices' | 'wiring' | 'seats' | 'targets' | 'policy'
  >,
  ways: readonly Way[],
  pressureOf: AtLevel = atLevel,
): Drives {
  const things = [...room.devices, ...room.speakers, ...room.subwoofers];
  const gears = new Map(things.map(({ id, gear }) => [id, gear]));
  const gearOf = (id: string): Gear | null => gears.get(id) ?? null;
  const sources = new Map(placedSources(room).map((source) => [source.id, source]));
  const placed = ways.flatMap((way) => {
    const source = sources.get(way.target);
    return source ? [{ ...way, source }] : [];
  });
  const told = placed.map(({ path }) =>
    path
      ? drivenLevel({ path, wiring: room.wiring, gearOf }, INPUT_DBFS)
      : { missing: 'what drives it' },
  );
  const missing = [...new Set(told.flatMap((one) => ('missing' in one ? [one.missing] : [])))];
  const isAbsolute = missing.length === 0;
  const ear = referenceSeat(room)?.at ?? null;
  const wanted_dbspl =
    (room.targets.referenceLevel ?? room.policy.referenceLevel)?.level_db ?? USUAL_LEVEL_DBSPL;
  return {
    drives: placed.map(({ source, set, channel, isLfe, path, response }, index) => {
      const one = told[index];
      const level_dbspl =
        isAbsolute && one && 'level_db' in one
          ? one.level_db
          : wanted_dbspl + spread_db(source.at, ear) + lfeGain_db(path);
      return {
        source,
        set,
        channel,
        isLfe,
        pressure_pa: pressureOf(response, level_dbspl),
      };
    }),
    level: {
      kind: isAbsolute ? 'absolute' : 'matched',
      input_dbfs: INPUT_DBFS,
      level_dbspl: isAbsolute ? null : wanted_dbspl,
    },
    notes: [
      ...(isAbsolute || placed.length === 0 ? [] : [matchedNote(missing)]),
      ...responseNotes(placed.map(({ source }) => source)),
    ],
  };
}

/** What the way to the seat takes, that matched levels make up for. */
function spread_db(at: Point, ear: Point | null): number {
  return ear === null ? 0 : 20 * Math.log10(Math.max(0.1, distance_m(at, ear)));
}

function lfeGain_db(path: TracedPath | null): number {
  return (path?.stages ?? []).reduce(
    (sum, { kind, value }) =>
      kind === 'lfe_gain' && value?.kind === 'level' ? sum + value.level_db : sum,
    0,
  );
}

const MOST_NAMED = 3;

function matchedNote(missing: readonly string[]): Note {
  const named = missing.slice(0, MOST_NAMED).join(', ');
  const more = MOST_NAMED < missing.length ? ' and more' : '';
  return {
    path: [],
    message: `Levels at the seats are matched ones, not absolute: ${named}${more} not recorded`,
  };
}

/** Where a roll-off is measured, and where its phase comes from. */
function responseNotes(sources: readonly PlacedSource[]): readonly Note[] {
  const told = new Map(
    sources.flatMap(({ id, gear }) => (gear ? [[id, phaseOf(gear)] as const] : [])),
  );
  const note = (phase: 'file' | 'minimum', message: string): readonly Note[] => {
    const ids = [...told].flatMap(([id, of]) => (of === phase ? [id] : []));
    return ids.length === 0 ? [] : [{ path: [], message: `${ids.join(', ')}: ${message}` }];
  };
  return [
    ...note('file', 'natural roll-off, level and phase, from the response file'),
    ...note(
      'minimum',
      'natural roll-off from the response file; it has no phase, and the least that goes with its level is taken',
    ),
  ];
}

function atLevel({ re, im }: ComplexResponse, level_dbspl: number): ComplexResponse {
  const by = REFERENCE_PA * 10 ** (level_dbspl / 20);
  return { re: re.map((value) => value * by), im: im.map((value) => value * by) };
}
