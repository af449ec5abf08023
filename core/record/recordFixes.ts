// Edits of the record: a fingerprint written down, a sign-off renewed. What they say is a person's word, so none of them is safe.

import type { Path } from '../../schema/model/path.ts';
import type { Fix } from '../finding.ts';
import type { Fingerprint } from './fingerprint.ts';

/** Ties a session, a check or a sign-off to the set-up as it is; none while that cannot be read. */
export function tieFixes(path: Path, { text }: Fingerprint, title: string): readonly Fix[] {
  if (text === null) return [];
  return [{ title, edits: [{ do: 'set', path: [...path, 'setup'], value: text }], safe: false }];
}

/** Dates a sign-off anew and ties it to the set-up as it is; none while the day or the set-up is not known. */
export function renewFixes({ text }: Fingerprint, today: string | null): readonly Fix[] {
  if (text === null || today === null) return [];
  return [
    {
      title: `Checked again and signed off today, ${today}`,
      edits: [
        { do: 'set', path: ['signed_off', 'date'], value: today },
        { do: 'set', path: ['signed_off', 'setup'], value: text },
      ],
      safe: false,
    },
  ];
}
