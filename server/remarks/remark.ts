// A remark: one thing to say about a file, be it a fault of its text or a finding about its room. Diagnostics, code actions,
// the command line and the preview's list all read the same list of these.

import type { Figure, Finding, Fix } from '../../core/finding.ts';
import type { Range } from '../../schema/model/located.ts';
import type { Path } from '../../schema/model/path.ts';
import type { Problem, Related, Severity, TextFix } from '../../schema/model/problem.ts';
import { PROBLEM_KINDS, type ProblemKind } from '../../schema/problems.ts';
import { RESOLVE_PROBLEM_KINDS } from '../../schema/resolve/problemKinds.ts';

export interface Remark {
  readonly code: string;
  readonly severity: Severity;
  readonly path: Path;
  readonly range: Range;
  readonly message: string;
  readonly reason: string | null;
  readonly advice: string | null;
  readonly source: string | null;
  readonly measured: Figure | null;
  readonly limit: Figure | null;
  readonly related: readonly Related[];
  /** Cures told as text (faults), and as meaning (findings). */
  readonly textFixes: readonly TextFix[];
  readonly fixes: readonly Fix[];
  /** Why somebody accepted it; null where nobody did. */
  readonly accepted: Finding['accepted'];
  /** Faults come before anything is computed; findings from the setup. */
  readonly about: 'text' | 'room';
}

const KINDS: ReadonlyMap<string, ProblemKind> = new Map(
  [...PROBLEM_KINDS, ...RESOLVE_PROBLEM_KINDS].map((kind) => [kind.code, kind]),
);

export function remarkOfProblem(problem: Problem): Remark {
  const kind = KINDS.get(problem.code);
  return {
    code: problem.code,
    severity: problem.severity,
    path: problem.path,
    range: problem.range,
    message: problem.message,
    reason: kind?.reason ?? null,
    advice: kind?.advice ?? null,
    source: null,
    measured: null,
    limit: null,
    related: problem.related ?? [],
    textFixes: problem.fixes,
    fixes: [],
    accepted: null,
    about: 'text',
  };
}

export function remarkOfFinding(finding: Finding, range: Range): Remark {
  const { code, severity, path, message, reason, advice, source } = finding;
  const { measured, limit, related, fixes, accepted } = finding;
  return {
    code,
    severity,
    path,
    range,
    message,
    reason,
    advice,
    source,
    measured,
    limit,
    related,
    textFixes: [],
    fixes,
    accepted,
    about: 'room',
  };
}
