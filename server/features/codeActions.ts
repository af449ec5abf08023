// Code actions: cures for remarks, dialling in what is computed, accepting a finding with a reason, all safe cures at once.

import {
  type CodeAction,
  CodeActionKind,
  type Diagnostic,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Range } from '../../schema/model/located.ts';
import { pathText } from '../../schema/model/path.ts';
import type { TextEdit } from '../../schema/model/problem.ts';
import type { Analysis, Source } from '../analysis.ts';
import { adviceAbout, editsFor, openAdvice } from '../dialIn.ts';
import { curesOf, editsOf, safeEdits } from '../edits.ts';
import { toTextEdit } from '../lsp/convert.ts';
import { pathAt } from '../pathAt.ts';
import { nameRange, placeOf } from '../places.ts';
import type { Remark } from '../remarks/remark.ts';
import { dialInText } from '../words/settingWords.ts';

export const DIAL_IN_KIND = 'source.dialIn.groundbass';
export const FIX_ALL_KIND = 'source.fixAll.groundbass';
export const CODE_ACTION_KINDS: string[] = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorRewrite,
  DIAL_IN_KIND,
  FIX_ALL_KIND,
];

/** @param wanted the kinds asked for; undefined for all but those that only whole-file commands ask for */
export function codeActions(
  analysis: Analysis,
  range: Range,
  shown: readonly Diagnostic[],
  wanted: readonly string[] | undefined,
): CodeAction[] {
  const asks = (kind: string): boolean =>
    wanted === undefined || wanted.some((one) => kind === one || kind.startsWith(`${one}.`));
  return [
    ...(asks(CodeActionKind.QuickFix) ? quickFixes(analysis, range, shown) : []),
    ...(asks(CodeActionKind.RefactorRewrite) ? dialInHere(analysis, range) : []),
    ...(asks(DIAL_IN_KIND) ? dialInAll(analysis) : []),
    ...(asks(FIX_ALL_KIND) && wanted !== undefined ? fixAll(analysis) : []),
  ];
}

function quickFixes(
  analysis: Analysis,
  range: Range,
  shown: readonly Diagnostic[],
): readonly CodeAction[] {
  const { source } = analysis;
  return analysis.remarks
    .filter((remark) => remark.accepted === null && isAbout(source, remark, range))
    .flatMap((remark) => {
      const diagnostics = shown.filter(
        ({ code, message }) => code === remark.code && message === remark.message,
      );
      const cures = curesOf(source, remark).map(({ title, edits }, index) => ({
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics,
        isPreferred: index === 0,
        edit: workspaceEdit(source, edits),
      }));
      return [...cures, ...accept(analysis, remark, diagnostics)];
    });
}

/** Accepting asks for a reason, so the reason is left to be written: the finding's own words stand in the text meanwhile. */
function accept(
  { source }: Analysis,
  remark: Remark,
  diagnostics: Diagnostic[],
): readonly CodeAction[] {
  if (remark.about !== 'room') return [];
  const name = freeName(source, remark.code.replace(/^.*\//, '').replaceAll('-', '_'));
  const about = remark.path.length === 0 ? '' : `, about: ${quoted(pathText(remark.path))}`;
  const value = `{ finding: ${remark.code}${about}, because: "write the reason here" }`;
  const edits = editsOf(source, [{ do: 'set', path: ['accepted', name], value }]);
  if (edits === null) return [];
  return [
    {
      title: `Accept \`${remark.code}\` here, with a reason`,
      kind: CodeActionKind.QuickFix,
      diagnostics,
      isPreferred: false,
      edit: workspaceEdit(source, edits),
    },
  ];
}

function dialInHere(analysis: Analysis, range: Range): readonly CodeAction[] {
  const { source, setup } = analysis;
  const path = pathAt(source.parsed, range.start);
  if (setup === null || path === null) return [];
  const about = path[0] === 'settings' ? adviceAbout(setup, path) : [];
  const actions: CodeAction[] = [];
  const add = (title: string, advice: typeof about): void => {
    const edits = editsOf(source, editsFor(advice));
    if (edits === null) return;
    const edit = workspaceEdit(source, edits);
    actions.push({ title, kind: CodeActionKind.RefactorRewrite, edit });
  };
  const [first] = about;
  if (first && 2 < path.length && about.length === 1)
    add(`Dial in ${dialInText(first)} (${first.control})`, about);
  const device = path[0] === undefined ? undefined : path[1];
  if (
    device !== undefined &&
    ['settings', 'devices', 'speakers', 'subwoofers'].includes(path[0] ?? '')
  )
    add(
      `Dial in all computed settings of \`${device}\``,
      openAdvice(setup).filter((advice) => advice.device === device),
    );
  return actions;
}

function dialInAll({ source, setup }: Analysis): readonly CodeAction[] {
  if (setup === null) return [];
  const advice = openAdvice(setup);
  const edits = editsOf(source, editsFor(advice));
  if (edits === null) return [];
  return [
    {
      title: `Dial in all computed settings (${advice.length})`,
      kind: DIAL_IN_KIND,
      edit: workspaceEdit(source, edits),
    },
  ];
}

function fixAll({ source, remarks }: Analysis): readonly CodeAction[] {
  const edits = safeEdits(source, remarks);
  if (edits.length === 0) return [];
  return [
    {
      title: 'Take every safe fix',
      kind: FIX_ALL_KIND,
      edit: workspaceEdit(source, edits),
    },
  ];
}

function workspaceEdit(source: Source, edits: readonly TextEdit[]): WorkspaceEdit {
  return {
    documentChanges: [
      {
        textDocument: { uri: source.uri, version: source.version },
        edits: edits.map((edit) => toTextEdit(source.text, edit)),
      },
    ],
  };
}

function freeName({ parsed }: Source, wanted: string): string {
  for (let count = 1; ; count += 1) {
    const name = count === 1 ? wanted : `${wanted}_${count}`;
    if (placeOf(parsed, ['accepted', name]) === null) return name;
  }
}

function quoted(text: string): string {
  return /^[a-z][a-z0-9_.]*$/.test(text) ? text : JSON.stringify(text);
}

/** Whether the range touches what the remark underlines, or the key that it belongs to. */
function isAbout({ parsed }: Source, remark: Remark, range: Range): boolean {
  const key = nameRange(parsed, remark.path);
  return meet(remark.range, range) || (key !== null && meet(key, range));
}

function meet(one: Range, other: Range): boolean {
  return one.start <= other.end && other.start <= one.end;
}
