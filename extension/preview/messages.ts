// Reads what the preview's page says: its messages come from a browser, so that every part is looked at before it is used.

import type { LowEndParams } from '../../server/protocol/lowEnd.ts';
import type { PaneState, PaneToHost } from '../../server/protocol/pane.ts';
import type { SemanticEdits } from '../edit.ts';

/** Far above what one drag or one click brings about. */
const MOST_EDITS = 1000;

type Fields = Readonly<Record<string, unknown>>;

/** @returns null where it is none of our messages, or not whole */
export function readMessage(message: unknown): PaneToHost | null {
  if (!isFields(message)) return null;
  const { kind, path, version, title, edits, what, id, trial, number, ask } = message;
  switch (kind) {
    case 'ready':
      return { kind };
    case 'reveal':
      return isPath(path) ? { kind, path } : null;
    case 'edit':
      return Number.isInteger(version) && typeof title === 'string' && areEdits(edits)
        ? { kind, version: version as number, title, edits }
        : null;
    case 'search':
      return isSearchable(what) && typeof id === 'string' ? { kind, what, id } : null;
    case 'try':
      return Number.isInteger(version) && Number.isInteger(trial) && areEdits(edits)
        ? { kind, trial: trial as number, version: version as number, edits }
        : null;
    case 'ask':
      return Number.isInteger(version) && Number.isInteger(number) && isAsk(ask)
        ? { kind, number: number as number, version: version as number, ask }
        : null;
    default:
      return null;
  }
}

/** The room file that a page showed before its window was reloaded. */
export function readStateUri(state: unknown): PaneState['uri'] {
  return isFields(state) && typeof state.uri === 'string' ? state.uri : null;
}

type Searchable = Extract<PaneToHost, { kind: 'search' }>['what'];

function isSearchable(value: unknown): value is Searchable {
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

function isAsk(value: unknown): value is LowEndParams['ask'] {
  if (!isFields(value)) return false;
  const { kind, thing, place, request } = value;
  if (kind === 'moved')
    return (
      isFields(thing) &&
      isFields(place) &&
      ['seats', 'speakers', 'subwoofers'].includes(String(thing.list)) &&
      typeof thing.id === 'string' &&
      [place.x_m, place.y_m].every(Number.isFinite)
    );
  if (kind !== 'map' || !isFields(request) || !isFields(request.of)) return false;
  const { of, frequency_hz, height_m, columns, rows } = request;
  const isNamed =
    typeof of.source === 'string' ||
    (typeof of.channel === 'string' && (of.set === null || typeof of.set === 'string'));
  return (
    isNamed &&
    [frequency_hz, height_m].every(Number.isFinite) &&
    [columns, rows].every((count) => Number.isInteger(count) && (count as number) <= MOST_CELLS)
  );
}

function isPath(value: unknown): value is readonly string[] {
  return Array.isArray(value) && value.every((key) => typeof key === 'string');
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
