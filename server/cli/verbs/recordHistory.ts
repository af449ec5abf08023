// `groundbass record --history`: which edit of a room file changed which part of the set-up.

import { changedParts } from '../../../core/record/fingerprint.ts';
import { partsText } from '../../../core/record/partWords.ts';
import type { Analysis } from '../../analysis.ts';
import { diskPath } from '../../node/nodeFiles.ts';
import type { Session } from '../../session.ts';
import { versionsOf } from '../history.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

/** Each version's set-up against the one before it; gear files are taken as they are now. */
export async function history(
  path: string,
  room: Analysis,
  session: Session,
  io: Io,
): Promise<void> {
  const file = diskPath(room.source.uri);
  if (path === '-' || file === null) throw new Misuse('the history of standard input is not known');
  const now = { commit: null, date: '', subject: 'not committed', text: room.source.parsed.text };
  const versions = [now, ...(await versionsOf(file))];
  const prints: (string | null)[] = [];
  for (const [index, { text: one }] of versions.entries()) {
    session.open(room.source.uri, index + 1, one, '');
    prints.push((await session.analysis(room.source.uri))?.setup?.record?.fingerprint.text ?? null);
  }
  const dated = [
    ...(room.setup?.record?.sessions ?? []).map(({ session: id, setup }) => ({ id, setup })),
    { id: 'sign_off', setup: room.setup?.record?.signOff?.setup ?? null },
  ];
  for (const [index, version] of versions.entries()) {
    const print = prints[index] ?? null;
    const isNewest = prints.indexOf(print) === index;
    const of = dated.filter(({ setup }) => setup !== null && setup === print && isNewest);
    const what = edit(print, prints[index + 1] ?? null, index === versions.length - 1);
    if (what === '' && of.length === 0) continue;
    const tied = of.length === 0 ? '' : `as in ${of.map(({ id }) => id).join(', ')}`;
    const { commit, date, subject } = version;
    io.out(`${[commit ?? '-', date, subject, what, tied].filter(Boolean).join('  ')}\n`);
  }
}

/** What of the set-up one version has otherwise than the one before; empty for nothing. */
function edit(print: string | null, before: string | null, isFirst: boolean): string {
  if (isFirst) return 'first version';
  const changed = print === null || before === null ? null : changedParts(before, print);
  if (changed === null) return 'cannot be read';
  return changed.length === 0 ? '' : partsText(changed);
}
