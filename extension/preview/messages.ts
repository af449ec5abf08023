// Reads what the preview's page says: its messages come from a browser, so that every part is looked at before it is used.

import type { PaneState, PaneToHost } from '../../server/protocol/pane.ts';
import type { SemanticEdits } from '../edit.ts';

/** Far above what one drag or one click brings about. */
const MOST_EDITS = 1000;

type Fields = Readonly<Record<string, unknown>>;

/** @returns null where it is none of our messages, or not whole */
export function readMessage(message: unknown): PaneToHost | null {
  if (!isFields(message)) return null;
  const { kind, path, version, title, edits, what, id, trial } = message;
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
      return (what === 'places' || what === 'eq') && typeof id === 'string'
        ? { kind, what, id }
        : null;
    case 'try':
      return Number.isInteger(version) && Number.isInteger(trial) && areEdits(edits)
        ? { kind, trial: trial as number, version: version as number, edits }
        : null;
    default:
      return null;
  }
}

/** The room file that a page showed before its window was reloaded. */
export function readStateUri(state: unknown): PaneState['uri'] {
  return isFields(state) && typeof state.uri === 'string' ? state.uri : null;
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

function isPath(value: unknown): value is readonly string[] {
  return Array.isArray(value) && value.every((key) => typeof key === 'string');
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
