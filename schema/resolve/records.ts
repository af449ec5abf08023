// What people wrote down: accepted findings, sign-off, notes. Their names are looked up; the rest is kept.

import type { Located, Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Acceptance, Room, SignedOff } from '../model/room.ts';
import { wordIn } from './arrow.ts';
import { below, entriesOf, mapOf, type Place, textOf } from './place.ts';
import { months, unknownFinding } from './policy.ts';
import { isFaulty, type Reading, refer, tellAt } from './reading.ts';
import type { Scope } from './scope.ts';
import { unknownName } from './unknownName.ts';

export function readAccepted(reading: Reading, root: Place, scope: Scope): readonly Acceptance[] {
  const accepted: Acceptance[] = [];
  for (const entry of entriesOf(below(root, 'accepted'))) {
    const finding = below(entry, 'finding');
    const code = isFaulty(reading, finding.path) ? null : textOf(finding);
    const about = below(entry, 'about');
    if (code === null || finding.value === null) continue;
    const { range } = finding.value;
    refer(reading, 'finding', { id: code, range, path: finding.path }, null);
    const known = scope.context.findingCodes;
    if (known !== undefined && !known.includes(code))
      tellAt(reading, finding.path, range, () => unknownFinding(code, range, known));
    checkAbout(reading, root, about, scope);
    accepted.push({
      id: entry.name,
      finding: code,
      about: textOf(about),
      because: textOf(below(entry, 'because')),
      until: textOf(below(entry, 'until')),
    });
  }
  return accepted;
}

/** `speakers.right` or deeper: each word is a key below the one before it. */
function checkAbout(reading: Reading, root: Place, place: Place, scope: Scope): void {
  const about = isFaulty(reading, place.path) ? null : textOf(place);
  if (about === null || place.value?.kind !== 'scalar') return;
  let at = 0;
  let here: Place = root;
  for (const key of about.split('.')) {
    const { range } = wordIn(place.value, reading.file.text, at, key);
    const next = below(here, key);
    if (here.path.length === 1) referAbout(reading, here.path[0] ?? '', key, range, place, scope);
    // A finding may be about a key that is not written, such as a setting that is missing: only names have to be there.
    if (next.key === null) {
      if (here.path.length < 2) tellNoSuchPlace(reading, here, place, key, range);
      return;
    }
    at += key.length + 1;
    here = next;
  }
}

function referAbout(
  reading: Reading,
  section: string,
  id: string,
  range: Range,
  place: Place,
  scope: Scope,
): void {
  const word = { id, range, path: place.path };
  const seat = section === 'seats' ? scope.seats.get(id) : undefined;
  if (seat !== undefined) refer(reading, 'seat', word, { file: null, path: seat });
  const user = section === 'seats' ? undefined : scope.users.get(id);
  if (user === undefined) return;
  const kind = user.section === 'devices' ? 'device' : 'speaker';
  refer(reading, kind, word, { file: null, path: user.place.path });
}

function tellNoSuchPlace(
  reading: Reading,
  here: Place,
  place: Place,
  name: string,
  range: Range,
): void {
  const known = [...(mapOf(here)?.entries.keys() ?? [])];
  const lead = here.path.length === 0 ? 'This room has no' : `\`${here.path.join('.')}\` has no`;
  const told = { code: 'reference/about', lead, name, range, known, plural: 'keys' };
  tellAt(reading, place.path, range, () => unknownName(told));
}

export function readSignedOff(place: Place): SignedOff | null {
  if (mapOf(place) === null) return null;
  return {
    date: textOf(below(place, 'date')),
    by: textOf(below(place, 'by')),
    setup: textOf(below(place, 'setup')),
    recheck_months: months(below(place, 'recheck')),
  };
}

/** All notes of the file, in its order, each under the path of what it is about. */
export function readNotes(root: Located | null): Room['notes'] {
  const notes: { readonly path: Path; readonly text: string }[] = [];
  collectNotes(root, [], notes);
  return notes;
}

function collectNotes(
  value: Located | null,
  path: Path,
  notes: { readonly path: Path; readonly text: string }[],
): void {
  if (value === null || value.kind === 'scalar') return;
  if (value.kind === 'list') {
    value.items.forEach((item, index) => {
      if (item !== null && item.kind !== 'scalar')
        collectNotes(item, [...path, String(index)], notes);
    });
    return;
  }
  for (const [key, entry] of value.entries) {
    if (key.startsWith('x_')) continue;
    const below = entry.value;
    if (key === 'note' && below?.kind === 'scalar') notes.push({ path, text: below.text });
    else if (below !== null && below.kind !== 'scalar') collectNotes(below, [...path, key], notes);
  }
}
