// `groundbass record`: a room's fingerprint, and what of its measurements, listening checks and sign-off still stands.

import { type Command, Option } from 'commander';
import { partsText } from '../../../core/record/partWords.ts';
import type { RecordFigures } from '../../../core/record/recordFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import { showFor } from '../../../core/show.ts';
import type { Analysis } from '../../analysis.ts';
import { applied, editsOf } from '../../edits.ts';
import { recordFigures } from '../../figures/recordFigures.ts';
import { driftText, dueText, pairText, stateText, tieText } from '../../sheet/recordText.ts';
import { writeBack } from '../apply.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { history } from './recordHistory.ts';

interface RecordOptions {
  readonly format: 'text' | 'json';
  readonly fingerprint: boolean;
  readonly history: boolean;
  readonly write: readonly string[];
}

export function addRecord(program: Command, io: Io): void {
  program
    .command('record')
    .description('say which measurements, checks and sign-off still stand, and write fingerprints')
    .argument('<file>', 'a room file; - for standard input')
    .addOption(new Option('-f, --format <format>').choices(['text', 'json']).default('text'))
    .option('--fingerprint', 'only the fingerprint of the set-up', false)
    .option('--history', 'the edits of the set-up that git keeps, newest first', false)
    .option(
      '--write <name...>',
      'write the fingerprint to these sessions or checks, or to sign_off',
      [],
    )
    .addHelpText(
      'after',
      `
A fingerprint has four digits each for room, places, gear, wiring and settings. Write it only where the file describes the
set-up that was measured, heard or signed: nothing can check that but you.

Examples:
  $ groundbass record rooms/heron.room.yaml
  $ groundbass record rooms/heron.room.yaml --fingerprint
  $ groundbass record rooms/heron.room.yaml --write autumn_2026 sign_off
  $ groundbass record rooms/heron.room.yaml --history
`,
    )
    .action(async (path: string, options: RecordOptions) => {
      const { room, session } = await readRoom(path, io, { lowEnd: false });
      const { setup } = room;
      if (setup?.record === undefined) throw new Misuse(`${path} cannot be read as a room`);
      const { record } = setup;
      if (0 < options.write.length) await writeTo(options.write, path, room, record, io);
      else if (options.history) await history(path, room, session, io);
      else if (options.fingerprint) io.out(`${fingerprintOf(path, record)}\n`);
      else if (options.format === 'json')
        io.out(
          `${JSON.stringify({ version: 1, room: setup.room.name, record: recordFigures(setup) }, null, 2)}\n`,
        );
      else io.out(text(setup, record, io));
    });
}

function fingerprintOf(path: string, { fingerprint }: RecordFigures): string {
  if (fingerprint.text !== null) return fingerprint.text;
  const open = fingerprint.parts.filter(({ digits }) => digits === null).map(({ part }) => part);
  throw new Misuse(`${path} has no fingerprint while ${partsText(open)} cannot be read: see check`);
}

function text(setup: Setup, record: RecordFigures, { colors }: Io): string {
  const { fingerprint, sessions, signOff, listening } = record;
  const show = showFor(setup.room.habits);
  const digits = fingerprint.parts.map(({ part, digits: some }) => `${part} ${some ?? '?'}`);
  const lines = [
    `${colors.bold(setup.room.name ?? 'Room without a name')}: ${stateText(record)}`,
    `set-up ${fingerprint.text ?? 'cannot be read'} (${digits.join(', ')})`,
    ...block(
      'sessions',
      sessions.map(
        (one) =>
          `${one.session}: ${one.date ?? 'no date'}, ${one.takeCount} takes, ${tieText(one)}`,
      ),
    ),
    ...(signOff === null
      ? []
      : block('sign-off', [
          [
            `${signOff.date ?? 'no date'} by ${signOff.by ?? 'nobody named'}`,
            tieText(signOff),
            dueText(signOff),
          ]
            .filter(Boolean)
            .join(', '),
        ])),
    ...block(
      'listening',
      listening.map(({ check, result, date, state, play }) =>
        [
          check,
          state === 'open'
            ? `to do: ${play ?? ''}`
            : `${result}${date === null ? '' : `, ${date}`}`,
          state === 'before_change' ? 'before the set-up changed' : '',
        ]
          .filter(Boolean)
          .join(': '),
      ),
    ),
    ...block(
      'drift',
      (setup.drift?.pairs ?? []).flatMap((pair) => [
        pairText(pair),
        ...pair.takes.map((take) => `  ${take.laterTake}: ${driftText(take, show)}`),
      ]),
    ),
  ];
  return `${lines.join('\n')}\n`;
}

function block(head: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [head, ...lines.map((line) => `  ${line}`)];
}

async function writeTo(
  names: readonly string[],
  path: string,
  { source }: Analysis,
  record: RecordFigures,
  io: Io,
): Promise<void> {
  const value = fingerprintOf(path, record);
  const edits = names.map((name) => {
    const at =
      name === 'sign_off'
        ? record.signOff?.path
        : (record.sessions.find(({ session }) => session === name)?.path ??
          record.listening.find(({ check }) => check === name)?.path);
    if (at === undefined || at === null)
      throw new Misuse(`${path} has no session, check or sign-off ${name}`);
    return { do: 'set', path: [...at, 'setup'], value } as const;
  });
  const texts = editsOf(source, edits);
  if (texts === null) throw new Misuse(`${path} cannot be edited while it has errors there`);
  await writeBack(source, applied(source.parsed.text, texts), io);
  io.err(`${value} written to ${names.join(', ')}\n`);
}
