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
  const findings = (setup?.findings ?? []).map((finding) =>
    remarkOfFinding(finding, rangeToShow(parsed, finding.path)),
  );
  return [...problems.map(remarkOfProblem), ...findings].sort(
    (one, other) => one.range.start - other.range.start,
  );
}
