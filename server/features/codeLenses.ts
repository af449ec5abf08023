// Code lenses: above the first line of a room, the way to its preview and how many findings it has; on each take, to its curve.

import type { CodeLens } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { nameRange } from '../places.ts';
import { SEVERITIES } from '../remarks/severity.ts';

/** Commands of the client; null where the client has no such command: then there is nothing to click. */
export interface ClientCommands {
  readonly openPreview: string | null;
  readonly showProblems: string | null;
  /** Asks for completion again, for the value behind a key. */
  readonly suggest: string | null;
}

export function codeLenses(analysis: Analysis, commands: ClientCommands): CodeLens[] {
  if (analysis.source.parsed.kind !== 'room') return [];
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  const lenses: CodeLens[] = [];
  if (commands.openPreview !== null)
    lenses.push({
      range,
      command: {
        title: 'Open the setup sheet',
        command: commands.openPreview,
        arguments: [analysis.source.uri],
      },
    });
  if (commands.showProblems !== null)
    lenses.push({
      range,
      command: { title: countText(analysis), command: commands.showProblems },
    });
  return commands.openPreview === null
    ? lenses
    : [...lenses, ...takeLenses(analysis, commands.openPreview)];
}

/** On each take: the sheet at its curve. */
function takeLenses({ source, setup }: Analysis, openPreview: string): readonly CodeLens[] {
  return (setup?.room.sessions ?? []).flatMap(({ takes }) =>
    takes.flatMap(({ path }): readonly CodeLens[] => {
      const name = nameRange(source.parsed, path);
      if (name === null) return [];
      return [
        {
          range: toRange(source.text, name),
          command: {
            title: 'Compare with plan',
            command: openPreview,
            arguments: [source.uri, path],
          },
        },
      ];
    }),
  );
}

/** "3 findings: 1 error, 2 warnings". */
function countText({ remarks }: Analysis): string {
  const open = remarks.filter(({ accepted }) => accepted === null);
  if (open.length === 0) return 'No findings';
  const parts = SEVERITIES.flatMap((severity) => {
    const count = open.filter((remark) => remark.severity === severity).length;
    return count === 0 ? [] : [counted(count, severity)];
  });
  return `${counted(open.length, 'finding')}: ${parts.join(', ')}`;
}

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 || word === 'information' ? '' : 's'}`;
}
