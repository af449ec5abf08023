// Hints of the kind `measurement` on fingerprints: whether the set-up is still the one that was measured, heard or signed.

import type { Tie } from '../../../core/record/recordFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import type { Path } from '../../../schema/model/path.ts';
import { explainRecord, tieHint } from '../../words/recordWords.ts';
import type { Hint } from './hint.ts';

export function recordHints(setup: Setup): readonly Hint[] {
  const { record } = setup;
  if (record === undefined) return [];
  const { sessions, signOff, listening } = record;
  return [
    ...sessions.flatMap((one) => hint(setup, one, one.path)),
    ...listening.flatMap((one) => (one.path === null ? [] : hint(setup, one, one.path))),
    ...(signOff === null ? [] : hint(setup, signOff, signOff.path, signOff.isDue === true)),
  ];
}

function hint(setup: Setup, tie: Tie, path: Path, isDue = false): readonly Hint[] {
  const text = tieHint(tie, isDue);
  if (text === null) return [];
  return [
    {
      kind: 'measurement',
      path: [...path, 'setup'],
      rank: 2,
      name: null,
      parts: [{ text, dependsOn: null }],
      explanation: explainRecord(setup, path),
      edits: [],
    },
  ];
}
