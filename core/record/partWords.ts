// The parts of a set-up in words.

import type { SetupPart } from './setupParts.ts';

const WORDS: Readonly<Record<SetupPart, string>> = {
  room: 'the room',
  places: 'places',
  gear: 'gear',
  wiring: 'wiring',
  settings: 'settings',
};

/** `places and settings`; `the set-up` where nothing tells which. */
export function partsText(parts: readonly SetupPart[]): string {
  const words = parts.map((part) => WORDS[part]);
  const last = words.at(-1);
  if (last === undefined) return 'the set-up';
  return words.length === 1 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

/** `places have changed`. */
export function changedText(parts: readonly SetupPart[]): string {
  const isOne =
    parts.length === 0 || (parts.length === 1 && parts[0] !== 'places' && parts[0] !== 'settings');
  return `${partsText(parts)} ${isOne ? 'has' : 'have'} changed`;
}
