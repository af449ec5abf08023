// A room from text, with the demo facility's gear: for tests of what an edit of the text does to the record.

import { readdirSync, readFileSync } from 'node:fs';
import type { Setup } from '../../core/setup.ts';
import { createWorkOut } from '../../core/workOut.ts';
import type { FileKind } from '../../schema/model/parsedFile.ts';
import type { NamedFile } from '../../schema/model/resolved.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';

export const TODAY = '2026-11-25';

const EXAMPLES = new URL('../../examples/', import.meta.url);

export function exampleText(file: string): string {
  return readFileSync(new URL(file, EXAMPLES), 'utf8');
}

const GEAR = readdirSync(new URL('gear/', EXAMPLES))
  .filter((file) => file.endsWith('.gear.yaml'))
  .map((file) => named('gear', file, exampleText(`gear/${file}`)));
const FACILITY = exampleText('facility.yaml');

function named(kind: FileKind, file: string, text: string): NamedFile {
  return { file, parsed: parseFile(kind, text) };
}

export interface Around {
  readonly today?: string | null;
  readonly facility?: string;
  /** Edits the gear files' text. */
  readonly gear?: (text: string) => string;
}

export function setupOf(
  text: string,
  { today = TODAY, facility = FACILITY, gear }: Around = {},
): Setup {
  const files =
    gear === undefined
      ? GEAR
      : GEAR.map(({ file, parsed }) => named('gear', file, gear(parsed.text)));
  const { room } = resolveRoom(parseFile('room', text), {
    gear: files,
    facility: named('facility', 'facility.yaml', facility),
    defaultSampleRate_hz: 48000,
    fileExists: null,
  });
  return createWorkOut()(room, { today, defaultTemperature_k: 293.15 });
}

/** Replaces exactly one place; a place that is not there is the test's own fault. */
export function edited(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2) throw new RangeError(`not there once: ${from}`);
  return text.replace(from, () => to);
}
