// Overlay: one located tree laid over another; `absent` takes a thing away, lists and plain values are replaced.

import type { Located, LocatedEntry, LocatedMap } from '../model/located.ts';

/** Of each group a map has one: whoever brings another takes the first one's place. */
const ONE_OF: readonly (readonly string[])[] = [
  ['gear', 'item'],
  ['size', 'plan'],
  ['height', 'ceiling'],
  ['material', 'absorption', 'shares', 'admittance'],
  ['temperature', 'speed_of_sound'],
  ['flush_in', 'hung_from', 'stands_on'],
  ['flat', 'points'],
];

/** Maps whose keys only mean something together: they are replaced as a whole. */
const WHOLE: readonly string[] = ['ceiling', 'shares', 'absorption', 'points'];

/**
 * @param base what is there; null where nothing is
 * @param change what is laid over it
 * @returns null where `absent` took it away
 */
export function overlay(base: Located | null, change: Located): Located | null {
  if (isAbsent(change)) return null;
  if (base?.kind !== 'map' || change.kind !== 'map') return withoutAbsent(change);
  const entries = new Map<string, LocatedEntry>();
  for (const [key, entry] of base.entries)
    if (!isDisplaced(key, base, change)) entries.set(key, entry);
  for (const [key, entry] of change.entries) {
    const under = WHOLE.includes(key) ? null : (entries.get(key)?.value ?? null);
    const value = entry.value === null ? null : overlay(under, entry.value);
    if (value === null && entry.value !== null) entries.delete(key);
    else entries.set(key, { ...entry, value });
  }
  return { ...base, entries };
}

/** The scalar that takes a thing away. */
export function isAbsent(value: Located | null): boolean {
  return value?.kind === 'scalar' && value.style === 'plain' && value.text === 'absent';
}

function withoutAbsent(change: Located): Located {
  if (change.kind !== 'map') return change;
  return overlay({ ...change, entries: new Map() }, change) ?? change;
}

function isDisplaced(key: string, base: LocatedMap, change: LocatedMap): boolean {
  const isOtherKind =
    change.entries.has('kind') && base.entries.has('kind') && kindOf(base) !== kindOf(change);
  if (isOtherKind && key !== 'kind') return true;
  // A box has neither of what a plan's height is told by.
  if (change.entries.has('size') && (key === 'height' || key === 'ceiling')) return true;
  return ONE_OF.some(
    (group) =>
      group.includes(key) && group.some((other) => other !== key && change.entries.has(other)),
  );
}

function kindOf({ entries }: LocatedMap): string | null {
  const kind = entries.get('kind')?.value;
  return kind?.kind === 'scalar' ? kind.text : null;
}
