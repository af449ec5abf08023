// Writes the fingerprints of the demo rooms anew, after an edit of a room or of its gear. Run: npx tsx test/record/stampExamples.ts
//
// What is to be out of date in the demo gets the digits of the parts that are to have changed turned over.

import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { SETUP_PARTS, type SetupPart } from '../../core/record/setupParts.ts';
import { editText } from '../../schema/edit.ts';
import type { Path } from '../../schema/model/path.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { applied } from '../../server/edits.ts';
import { exampleText, setupOf } from './textRoom.ts';

interface Stamp {
  readonly path: Path;
  /** The parts that are to have changed since. */
  readonly changed?: readonly SetupPart[];
}

const STAMPS: Readonly<Record<string, readonly Stamp[]>> = {
  heron: [
    { path: ['sessions', 'autumn_2026'] },
    { path: ['listening', 'kick_and_bass'] },
    { path: ['signed_off'] },
  ],
  kestrel: [
    { path: ['sessions', 'winter_2025'], changed: ['places'] },
    { path: ['sessions', 'spring_2026'] },
    { path: ['sessions', 'autumn_2026'] },
    { path: ['signed_off'] },
  ],
  dunlin: [{ path: ['signed_off'], changed: ['places', 'settings'] }],
};

/** The rooms' texts as they should stand, by file below `examples/`. */
export function stampedRooms(): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(STAMPS).map(([name, stamps]) => {
      const file = `rooms/${name}.room.yaml`;
      return [file, stamped(exampleText(file), stamps)];
    }),
  );
}

function stamped(text: string, stamps: readonly Stamp[]): string {
  const digits = setupOf(text).record?.fingerprint.text?.split('-').slice(1);
  if (digits === undefined) throw new RangeError('a demo room cannot be read whole');
  const edits = stamps.map(({ path, changed = [] }) => {
    const groups = SETUP_PARTS.map((part, index) =>
      changed.includes(part) ? turned(digits[index] ?? '') : digits[index],
    );
    return { do: 'set', path: [...path, 'setup'], value: `s-${groups.join('-')}` } as const;
  });
  const changes = editText(parseFile('room', text), edits);
  if (changes === null) throw new RangeError('a place to be stamped is gone');
  return applied(text, changes);
}

/** Every digit becomes another one, and always the same. */
function turned(digits: string): string {
  return [...digits].map((digit) => (15 - Number.parseInt(digit, 16)).toString(16)).join('');
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const [file, text] of stampedRooms())
    writeFileSync(new URL(`../../examples/${file}`, import.meta.url), text);
