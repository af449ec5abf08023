// Reads the stored reference data, each file with its source and description inside.
import { readFileSync } from 'node:fs';

/** Shape common to all files of `test/reference/data/`. */
export interface ReferenceData<Expected> {
  readonly description: string;
  readonly source: string;
  readonly expected: Expected;
}

/** @param name of a file in `test/reference/data/`, without `.json` */
export function referenceData<Expected>(name: string): ReferenceData<Expected> {
  const url = new URL(`../reference/data/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(url, 'utf8')) as ReferenceData<Expected>;
}
