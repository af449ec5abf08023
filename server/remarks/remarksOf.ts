// All remarks on one file in one list, in the file's order: what diagnostics, the command line and the preview say.

import type { Setup } from '../../core/setup.ts';
import type { ParsedFile } from '../../schema/model/parsedFile.ts';
import type { Problem } from '../../schema/model/problem.ts';
import { rangeToShow } from '../places.ts';
import { type Remark, remarkOfFinding, remarkOfProblem } from './remark.ts';

export function remarksOf(
  parsed: ParsedFile,
  problems: readonly Problem[],
  setup: Setup | null,
): readonly Remark[] {
  return inOrder([...problems.map(remarkOfProblem), ...findingsOf(parsed, setup)]);
}

/** The same faults of the text with the findings of another setup. */
export function remarksWithSetup(
  parsed: ParsedFile,
  remarks: readonly Remark[],
  setup: Setup,
): readonly Remark[] {
  const faults = remarks.filter(({ about }) => about === 'text');
  return inOrder([...faults, ...findingsOf(parsed, setup)]);
}

function findingsOf(parsed: ParsedFile, setup: Setup | null): readonly Remark[] {
  return (setup?.findings ?? []).map((finding) =>
    remarkOfFinding(finding, rangeToShow(parsed, finding.path)),
  );
}

function inOrder(remarks: readonly Remark[]): readonly Remark[] {
  return remarks.toSorted((one, other) => one.range.start - other.range.start);
}
