// Writes what is made from the schemas: types, validators, and the reference of the format.

import { writeFileSync } from 'node:fs';
import { generated } from './generated.ts';

for (const [path, text] of await generated()) {
  writeFileSync(new URL(`../../${path}`, import.meta.url), text);
}
