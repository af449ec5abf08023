// Every generated file of the schemas as text, by its path from the top: for the generator, and for the test that they are fresh.

import { compileReference } from './compileReference.ts';
import { compileTypes } from './compileTypes.ts';
import { compileValidators } from './compileValidators.ts';

export async function generated(): Promise<ReadonlyMap<string, string>> {
  const { code, declarations } = compileValidators();
  return new Map([
    ['docs/format.md', compileReference()],
    ['schema/types.generated.ts', await compileTypes()],
    ['schema/validators.generated.js', code],
    ['schema/validators.generated.d.ts', declarations],
  ]);
}
