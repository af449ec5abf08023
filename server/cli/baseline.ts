// A baseline: findings known from before, as `check --format json` printed them. They are left out, so that only what is new counts.

import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { pathText } from '../../schema/model/path.ts';
import { isAtLeast, SEVERITIES } from '../remarks/severity.ts';
import type { Io } from './io.ts';
import { Misuse } from './misuse.ts';
import type { FileReport } from './writers/report.ts';

/** The severities of the findings that are known at one place: by file, code and path, for messages hold figures that move. */
export type Baseline = ReadonlyMap<string, readonly Severity[]>;

type Severity = (typeof SEVERITIES)[number];

/** @throws Misuse where it cannot be read, or is something else */
export async function readBaseline(path: string, { cwd }: Io): Promise<Baseline> {
  const text = await readFile(resolve(cwd, path), 'utf8').catch(() => null);
  if (text === null) throw new Misuse(`${path} cannot be read`);
  const known = new Map<string, readonly Severity[]>();
  for (const { file, findings } of filesIn(text, path))
    for (const finding of findings) {
      const { code, path: place, severity } = record(finding);
      const grave = SEVERITIES.find((one) => one === severity);
      if (typeof code !== 'string' || typeof place !== 'string' || grave === undefined) continue;
      const key = keyOf(file, code, place);
      known.set(key, [...(known.get(key) ?? []), grave]);
    }
  return known;
}

/** What is new: more findings at a place than were known, or graver ones. */
export function beyondBaseline(
  files: readonly FileReport[],
  baseline: Baseline,
): { readonly files: readonly FileReport[]; readonly knownCount: number } {
  let knownCount = 0;
  const left = new Map([...baseline].map(([key, severities]) => [key, [...severities]]));
  const isKnown = (
    file: string,
    { code, path, severity }: FileReport['remarks'][number],
  ): boolean => {
    const severities = left.get(keyOf(file, code, pathText(path))) ?? [];
    const index = severities.findIndex((one) => isAtLeast(one, severity));
    if (index < 0) return false;
    severities.splice(index, 1);
    knownCount += 1;
    return true;
  };
  const open = files.map((file) => ({
    ...file,
    remarks: file.remarks.filter((remark) => !isKnown(file.name, remark)),
  }));
  return { files: open, knownCount };
}

function filesIn(
  text: string,
  path: string,
): readonly { readonly file: string; readonly findings: readonly unknown[] }[] {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    parsed = null;
  }
  const { version, files } = record(parsed);
  if (version !== 1 || !Array.isArray(files))
    throw new Misuse(`${path} is no baseline: the output of check --format json is expected`);
  return files.flatMap((one: unknown) => {
    const { file, findings } = record(one);
    return typeof file === 'string' && Array.isArray(findings) ? [{ file, findings }] : [];
  });
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

function keyOf(file: string, code: string, path: string): string {
  return JSON.stringify([file, code, path]);
}
