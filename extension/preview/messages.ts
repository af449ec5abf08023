// Reads what the preview's page says: its messages come from a browser, so that every part is looked at before it is used.

import type { LowEndParams } from '../../server/protocol/lowEnd.ts';
import type { PaneState, PaneToHost } from '../../server/protocol/pane.ts';
import type { Wanted } from '../../server/protocol/search.ts';
import type { SemanticEdits } from '../edit.ts';

/** Far above what one drag or one click brings about. */
const MOST_EDITS = 1000;

type Fields = Readonly<Record<string, unknown>>;

/** @returns null where it is none of our messages, or not whole */
export function readMessage(message: unknown): PaneToHost | null {
  if (!isFields(message)) return null;
  const { kind, path, version, title, edits, trial, number, ask } = message;
  switch (kind) {
    case 'ready':
    case 'stop':
      return { kind };
    case 'reveal':
      return isPath(path) ? { kind, path } : null;
    case 'edit':
      return Number.isInteger(version) && typeof title === 'string' && areEdits(edits)
        ? { kind, version: version as number, title, edits }
        : null;
    case 'search':
      return readSearch(message);
    case 'try':
      return Number.isInteger(version) && Number.isInteger(trial) && areEdits(edits)
        ? { kind, trial: trial as number, version: version as number, edits }
        : null;
    case 'ask': {
      const known = readAsk(ask);
      return Number.isInteger(version) && Number.isInteger(number) && known !== null
        ? { kind, number: number as number, version: version as number, ask: known }
        : null;
    }
    default:
      return null;
  }
}

/** The room file that a page showed before its window was reloaded. */
export function readStateUri(state: unknown): PaneState['uri'] {
  return isFields(state) && typeof state.uri === 'string' ? state.uri : null;
}

/** Far more seats than anyone measures. */
const MOST_SEATS = 1000;

function readSearch({ what, id, session, seats }: Fields): PaneToHost | null {
  if (!isSearchable(what) || typeof id !== 'string') return null;
  const isSession = session === undefined || typeof session === 'string';
  const areSeats = seats === undefined || (isPath(seats) && seats.length <= MOST_SEATS);
  return isSession && areSeats
    ? {
        kind: 'search',
        what,
        id,
        ...(session === undefined ? {} : { session }),
        ...(seats === undefined ? {} : { seats }),
      }
    : null;
}

function isSearchable(value: unknown): value is Wanted['what'] {
  return value === 'places' || value === 'mains' || value === 'seat' || value === 'eq';
}

function areEdits(value: unknown): value is SemanticEdits {
  return (
    Array.isArray(value) && 0 < value.length && value.length <= MOST_EDITS && value.every(isEdit)
  );
}

function isEdit(value: unknown): boolean {
  if (!isFields(value) || !isPath(value.path)) return false;
  return value.do === 'remove' || (value.do === 'set' && typeof value.value === 'string');
}

/** Finer than any pane shows. */
const MOST_CELLS = 200;
const LISTS = ['seats', 'speakers', 'subwoofers'] as const;

function readAsk(value: unknown): LowEndParams['ask'] | null {
  if (!isFields(value)) return null;
  if (value.kind === 'moved') return readMoved(value);
  return value.kind === 'map' && isFields(value.request) ? readMap(value.request) : null;
}

function readMoved({ thing, place }: Fields): LowEndParams['ask'] | null {
  if (!isFields(thing) || !isFields(place)) return null;
  const list = LISTS.find((one) => one === thing.list);
  const { x_m, y_m } = place;
  return list !== undefined && typeof thing.id === 'string' && isNumber(x_m) && isNumber(y_m)
    ? { kind: 'moved', thing: { list, id: thing.id }, place: { x_m, y_m } }
    : null;
}

function readMap({
  of,
  frequency_hz,
  height_m,
  columns,
  rows,
}: Fields): LowEndParams['ask'] | null {
  const sounding = isFields(of) ? readSounding(of) : null;
  return sounding !== null &&
    isNumber(frequency_hz) &&
    isNumber(height_m) &&
    isCellCount(columns) &&
    isCellCount(rows)
    ? { kind: 'map', request: { of: sounding, frequency_hz, height_m, columns, rows } }
    : null;
}

type Sounding = Extract<LowEndParams['ask'], { kind: 'map' }>['request']['of'];

function readSounding({ source, channel, set }: Fields): Sounding | null {
  if (typeof source === 'string') return { source };
  if (typeof channel !== 'string') return null;
  return set === null || typeof set === 'string' ? { channel, set } : null;
}

function isNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function isCellCount(value: unknown): value is number {
  return isNumber(value) && Number.isInteger(value) && 0 < value && value <= MOST_CELLS;
}

function isPath(value: unknown): value is readonly string[] {
  return Array.isArray(value) && value.every((key) => typeof key === 'string');
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
