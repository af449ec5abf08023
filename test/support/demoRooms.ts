// The demo facility worked out from its files, for tests of what is shown. Nothing of it is hand-made.

import { readdirSync, readFileSync } from 'node:fs';
import { gearResponse } from '../../core/measure/gearResponse.ts';
import type { Setup } from '../../core/setup.ts';
import { createWorkOut } from '../../core/workOut.ts';
import type { FileKind } from '../../schema/model/parsedFile.ts';
import type { NamedFile } from '../../schema/model/resolved.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { readGearFile } from '../../schema/resolve/gearLibrary.ts';
import { responseKey } from '../../schema/resolve/gearResponses.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';
import { readResponse } from '../../server/measure/readResponse.ts';
import type { SetupAnswer } from '../../server/protocol/setup.ts';

export interface DemoRoom {
  readonly name: string;
  readonly setup: Setup;
  readonly problems: SetupAnswer['problems'];
}

const EXAMPLES = new URL('../../examples/', import.meta.url);

/** Worked out once for all tests that one worker runs: nobody changes a setup, all of it is readonly. */
let all: readonly DemoRoom[] | null = null;

export function demoRooms(): readonly DemoRoom[] {
  all ??= workedOut();
  return all;
}

function workedOut(): readonly DemoRoom[] {
  const gear = readdirSync(new URL('gear/', EXAMPLES))
    .filter((file) => file.endsWith('.gear.yaml'))
    .map((file) => withResponseFiles(named('gear', `gear/${file}`)));
  const facility = named('facility', 'facility.yaml');
  return readdirSync(new URL('rooms/', EXAMPLES))
    .filter((file) => file.endsWith('.room.yaml'))
    .map((file) => {
      const { parsed } = named('room', `rooms/${file}`);
      const context = { gear, facility, defaultSampleRate_hz: 48000, fileExists: null };
      const { room, problems } = resolveRoom(parsed, context);
      const options = { today: '2026-11-25', defaultTemperature_k: 293.15 };
      return {
        name: file.replace('.room.yaml', ''),
        setup: createWorkOut()(room, options),
        problems: [...parsed.problems, ...problems].map(
          ({ code, severity, message, path, range }) => ({
            code,
            severity,
            message,
            path,
            line: parsed.text.slice(0, range.start).split('\n').length - 1,
          }),
        ),
      };
    });
}

/** With what the response files tell that it names, as the server would read them. */
function withResponseFiles(gear: NamedFile): NamedFile {
  const models = [...readGearFile(gear.parsed).models.values()];
  const files = models.flatMap((model) => model.gear?.responseFiles ?? []);
  const responses = files.flatMap((one) => {
    const { data } = readResponse(readFileSync(new URL(`gear/${one.file}`, EXAMPLES), 'utf8'));
    const read = data && gearResponse(data, one.of.kind === 'control' ? 'change' : 'natural');
    return read ? [[responseKey(one), read.response] as const] : [];
  });
  return { ...gear, responses: new Map(responses) };
}

function named(kind: FileKind, file: string): NamedFile {
  return { file, parsed: parseFile(kind, readFileSync(new URL(file, EXAMPLES), 'utf8')) };
}
