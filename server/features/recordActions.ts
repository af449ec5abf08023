// Code actions of the record: tie a session to the set-up, sign off, note a listening check, add the checks that are asked for.

import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import type { SemanticEdit } from '../../core/finding.ts';
import type { RecordFigures } from '../../core/record/recordFigures.ts';
import { renewFixes, tieFixes } from '../../core/record/recordFixes.ts';
import type { Setup } from '../../core/setup.ts';
import type { Range } from '../../schema/model/located.ts';
import type { Path } from '../../schema/model/path.ts';
import type { Analysis, Source } from '../analysis.ts';
import { editsOf } from '../edits.ts';
import { toTextEdit } from '../lsp/convert.ts';
import { pathAt } from '../pathAt.ts';
import { placeOf } from '../places.ts';
import { askedChecks, type NewCheck, newChecks, startingChecks } from '../record/newChecks.ts';
import { signOffEdits } from '../record/signOffEdits.ts';

interface Titled {
  readonly title: string;
  readonly edits: readonly SemanticEdit[];
}

/** Where a sign-off is looked for: at the head of a room, and in what belongs to its record. */
const SIGNED_FROM: readonly string[] = [
  'room',
  'name',
  'policy',
  'surveyed',
  'sessions',
  'accepted',
  'listening',
  'signed_off',
];
const LISTED_FROM: readonly string[] = [
  'room',
  'facility',
  'name',
  'policy',
  'policies',
  'listening',
  'signed_off',
];

/** @param wanted the kinds asked for; undefined for all */
export function recordActions(
  { source, setup }: Analysis,
  range: Range,
  wanted: readonly string[] | undefined,
): CodeAction[] {
  const kind = CodeActionKind.RefactorRewrite;
  if (!(wanted?.some((one) => kind === one || kind.startsWith(`${one}.`)) ?? true)) return [];
  const path = pathAt(source.parsed, range.start) ?? [];
  const record = setup?.record;
  const offered: readonly Titled[] = [
    ...(setup === null || record === undefined
      ? []
      : [...ties(path, record), ...signOffs(path, setup, record), ...results(path, record)]),
    ...lists(path, source, setup),
  ];
  return offered.flatMap(({ title, edits }) => {
    const edit = editOf(source, edits);
    return edit === null ? [] : [{ title, kind, edit }];
  });
}

function ties(path: Path, { sessions, fingerprint }: RecordFigures): readonly Titled[] {
  const session =
    path[0] === 'sessions' ? sessions.find((one) => one.session === path[1]) : undefined;
  if (session === undefined || session.tie === 'in_date') return [];
  return tieFixes(
    session.path,
    fingerprint,
    `Write this set-up’s fingerprint to \`${session.session}\``,
  );
}

function signOffs(path: Path, setup: Setup, record: RecordFigures): readonly Titled[] {
  if (!SIGNED_FROM.includes(path[0] ?? 'room')) return [];
  if (record.signOff === null) return signOffEdits(setup, record);
  if (path[0] !== 'signed_off') return [];
  const { path: signed, tie } = record.signOff;
  const tied =
    tie === 'in_date'
      ? []
      : tieFixes(signed, record.fingerprint, 'Write this set-up’s fingerprint to the sign-off');
  return [...renewFixes(record.fingerprint, record.today), ...tied];
}

/** A check that was just listened to. */
function results(
  path: Path,
  { listening, today, fingerprint: { text } }: RecordFigures,
): readonly Titled[] {
  const check =
    path[0] === 'listening' ? listening.find((one) => one.check === path[1]) : undefined;
  if (check === undefined || check.path === null || today === null) return [];
  const at = check.path;
  return (['good', 'doubtful', 'bad'] as const).map((result) => ({
    title: `Note \`${check.check}\` as ${result}, heard today`,
    edits: [
      { do: 'set', path: [...at, 'result'], value: result },
      { do: 'set', path: [...at, 'date'], value: today },
      ...(text === null ? [] : [{ do: 'set', path: [...at, 'setup'], value: text } as const]),
    ],
  }));
}

/** The checks that a room lacks of its facility's list; a starting list where there is none at all. */
function lists(path: Path, { parsed }: Source, setup: Setup | null): readonly Titled[] {
  if (!LISTED_FROM.includes(path[0] ?? 'room')) return [];
  const hasList = placeOf(parsed, ['listening']) !== null;
  if (parsed.kind === 'facility') {
    if (hasList) return [];
    return titled('Add a starting list of listening checks', startingChecks(), 'asked');
  }
  if (setup === null) return [];
  const asked = askedChecks(setup.room);
  if (0 < asked.length)
    return titled(`Add the facility’s listening checks (${asked.length})`, asked, 'open');
  if (hasList || 0 < (setup.room.askedListening?.length ?? 0)) return [];
  return titled('Add a starting list of listening checks', startingChecks(), 'open');
}

function titled(
  title: string,
  checks: readonly NewCheck[],
  as: 'asked' | 'open',
): readonly Titled[] {
  return [{ title, edits: newChecks(checks, as) }];
}

function editOf(
  { uri, version, text, parsed }: Source,
  edits: readonly SemanticEdit[],
): NonNullable<CodeAction['edit']> | null {
  const texts = editsOf({ uri, version, text, parsed }, edits);
  if (texts === null) return null;
  return {
    documentChanges: [
      { textDocument: { uri, version }, edits: texts.map((edit) => toTextEdit(text, edit)) },
    ],
  };
}
