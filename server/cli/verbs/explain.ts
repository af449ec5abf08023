// `groundbass explain`: what a finding means, why it matters, what to do, and where its limit comes from.

import type { Command } from 'commander';
import { RULES } from '../../../core/rules/index.ts';
import { nearNames } from '../../../schema/near.ts';
import { PROBLEM_KINDS } from '../../../schema/problems.ts';
import { RESOLVE_PROBLEM_KINDS } from '../../../schema/resolve/problemKinds.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

export function addExplain(program: Command, io: Io): void {
  program
    .command('explain')
    .description('say what a finding means; without a code, list them all')
    .argument('[code]', 'such as layout/height')
    .addHelpText(
      'after',
      `
Examples:
  $ groundbass explain
  $ groundbass explain layout/height
`,
    )
    .action((code: string | undefined) => {
      io.out(code === undefined ? list() : one(code, io));
    });
}

interface Explained {
  readonly code: string;
  readonly severity: string;
  readonly title: string;
  readonly reason: string;
  readonly advice: string;
  /** Faults of the text have none: the format is the source. */
  readonly source?: string;
}

function all(): readonly Explained[] {
  return [...PROBLEM_KINDS, ...RESOLVE_PROBLEM_KINDS, ...RULES];
}

function list(): string {
  const width = Math.max(...all().map(({ code }) => code.length));
  return `${all()
    .map(({ code, severity, title }) => `${code.padEnd(width)}  ${severity.padEnd(11)}  ${title}`)
    .join('\n')}\n`;
}

function one(code: string, { colors }: Io): string {
  const found = all().find((one) => one.code === code);
  if (!found) {
    const [near] = nearNames(
      code,
      all().map((one) => one.code),
    );
    throw new Misuse(
      `there is no finding ${code}${near === undefined ? '' : `; did you mean ${near}?`}`,
    );
  }
  const { severity, title, reason, advice, source } = found;
  return [
    `${colors.bold(title)} (${code}, ${severity})`,
    '',
    `Why: ${reason}`,
    `What to do: ${advice}`,
    ...(source === undefined ? [] : [`Source: ${source}`]),
    '',
  ].join('\n');
}
