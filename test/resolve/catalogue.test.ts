// The catalogue of problems: every code that resolve tells is in it, each once.

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { RESOLVE_PROBLEM_KINDS } from '../../schema/resolve/problemKinds.ts';

const folder = new URL('../../schema/resolve/', import.meta.url);

test('every code in the sources has its entry, and every entry its code', () => {
  const sources = readdirSync(folder)
    .filter((name) => name !== 'problemKinds.ts')
    .map((name) => readFileSync(new URL(name, folder), 'utf8'))
    .join('\n');
  const told = new Set(
    [...sources.matchAll(/'((?:reference|format|geometry)\/[a-z-]+)'/g)].map(([, code]) => code),
  );
  // Written with the section's own name in `userNames`.
  for (const code of ['reference/speaker', 'reference/subwoofer']) told.add(code);
  const listed = RESOLVE_PROBLEM_KINDS.map(({ code }) => code);
  expect(listed.toSorted()).toEqual([...told].toSorted());
  expect(new Set(listed).size).toBe(listed.length);
});
