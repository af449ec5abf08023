// What is told in a gear file of a response file that it names.

import type { Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';

/** What is wrong with a named response file: it is not there, or what it holds. */
export interface ResponseFault {
  readonly path: Path;
  readonly isMissing: boolean;
  readonly severity: Problem['severity'];
  readonly message: string;
}

export function responseProblem(
  { path, isMissing, severity, message }: ResponseFault,
  range: Range,
): Problem {
  const code = isMissing ? 'reference/file' : 'reference/response';
  return { code, severity, path, range, message, fixes: [] };
}
