// Section "Findings": what the rules and the reading of the file have to say, worst first, with reason, advice and source.

import type { VNode } from 'preact';
import type { Finding } from '../../core/finding.ts';
import { pathText } from '../../schema/model/path.ts';
import type { Severity } from '../../schema/model/problem.ts';
import type { SetupAnswer } from '../protocol/setup.ts';
import { Mark } from './mark.tsx';
import { Said } from './said.tsx';
import { Fold, Section } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import type { View } from './view.ts';
import { counted } from './words.ts';

export type Problems = SetupAnswer['problems'];

interface FindingsPartProps extends View {
  readonly problems: Problems;
}

const SEVERITIES: readonly {
  readonly severity: Severity;
  readonly one: string;
  readonly many: string;
}[] = [
  { severity: 'error', one: 'error', many: 'errors' },
  { severity: 'warning', one: 'warning', many: 'warnings' },
  { severity: 'information', one: 'remark', many: 'remarks' },
  { severity: 'hint', one: 'suggestion', many: 'suggestions' },
];

export function FindingsPart({ setup, problems }: FindingsPartProps): VNode {
  const open = setup.findings.filter(({ accepted }) => accepted === null);
  const accepted = setup.findings.filter((finding) => finding.accepted !== null);
  return (
    <Section id="findings" title="Findings" brief={`${findingCounts({ setup, problems })}.`}>
      {SEVERITIES.map(({ severity, one, many }) => {
        const ofFile = problems.filter((problem) => problem.severity === severity);
        const ofRules = open.filter((finding) => finding.severity === severity);
        const count = ofFile.length + ofRules.length;
        return count === 0 ? null : (
          <div key={severity} class={`findings findings-${severity}`}>
            <h3>
              <Mark kind={severity} /> {counted(count, one, many)}
            </h3>
            <ul>
              {ofFile.map((problem) => (
                <ProblemItem
                  key={`${problem.code} ${problem.line} ${problem.message}`}
                  problem={problem}
                />
              ))}
              {ofRules.map((finding) => (
                <FindingItem key={findingKey(finding)} finding={finding} />
              ))}
            </ul>
          </div>
        );
      })}
      {accepted.length === 0 ? null : (
        <Fold id="findings-accepted" summary={`${accepted.length} accepted`}>
          <ul class="findings">
            {accepted.map((finding) => (
              <FindingItem key={findingKey(finding)} finding={finding} />
            ))}
          </ul>
        </Fold>
      )}
    </Section>
  );
}

/** `2 errors, 1 warning`, or that there is nothing. */
export function findingCounts({
  setup,
  problems,
}: {
  readonly setup: View['setup'];
  readonly problems: Problems;
}): string {
  const open = setup.findings.filter(({ accepted }) => accepted === null);
  const counts = SEVERITIES.flatMap(({ severity, one, many }) => {
    const count = [...problems, ...open].filter((entry) => entry.severity === severity).length;
    return count === 0 ? [] : [counted(count, one, many)];
  });
  return counts.length === 0 ? 'Nothing to remark' : counts.join(', ');
}

function findingKey({ code, path, message }: Finding): string {
  return `${code} ${pathText(path)} ${message}`;
}

function ProblemItem({ problem }: { readonly problem: Problems[number] }): VNode {
  return (
    <li class="finding" {...placeOf(problem.path)}>
      <p class="message">
        <ToSource path={problem.path}>
          <Said text={problem.message} />
        </ToSource>
      </p>
      <p class="where">
        <code>{problem.code}</code>
        {` line ${problem.line + 1}`}
      </p>
    </li>
  );
}

function FindingItem({ finding }: { readonly finding: Finding }): VNode {
  const { code, path, message, reason, advice, source, accepted } = finding;
  return (
    <li class="finding" {...placeOf(path)}>
      <p class="message">
        <ToSource path={path}>
          <Said text={message} />
        </ToSource>
      </p>
      <p>
        <Said text={`${reason} ${advice}`} />
      </p>
      <p class="where">
        <code>{code}</code> <span>{pathText(path)}</span>{' '}
        <cite>
          <Said text={source} />
        </cite>
      </p>
      {accepted === null ? null : (
        <p class="accepted">
          {`Accepted as ${accepted.id}`}
          {accepted.because === null ? '' : `, because: ${accepted.because}`}
          {accepted.until === null ? '' : `; until ${accepted.until}`}
        </p>
      )}
    </li>
  );
}
