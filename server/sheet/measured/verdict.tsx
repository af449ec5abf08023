// What a session's takes come to against the plan: that they agree, what would explain where they do not, or that nobody can tell.

import type { VNode } from 'preact';
import type { LikelyCause, SessionVerdict } from '../../../core/measured/verification.ts';
import { Said } from '../said.tsx';
import { placeOf, ToSource } from '../source.tsx';

const VERDICTS: Readonly<Record<SessionVerdict['verdict'], string>> = {
  agrees: 'Nothing differs from the plan by more than these takes can show.',
  explained: 'These takes differ from the plan; likely, the likeliest first:',
  undecided: 'These takes differ from the plan, and they cannot tell why.',
};
const SILENT =
  'Nothing differs from the plan by more than these takes can show; but something may be otherwise that they cannot show.';
const TOGETHER = 'Only together:';

export function Verdict({ verdict }: { readonly verdict: SessionVerdict | null }): VNode | null {
  if (verdict === null) return null;
  const { causes, cannotTell, elsewhere = [], contradicted = [] } = verdict;
  const isSilent = verdict.verdict === 'undecided' && verdict.differs === false;
  const notes = [...cannotTell, ...elsewhere, ...contradicted.map(({ message }) => message)];
  return (
    <>
      <p>{isSilent ? SILENT : VERDICTS[verdict.verdict]}</p>
      {causes.length === 0 ? null : (
        <ol class="causes">
          {explanationsOf(causes).map((own) => (
            <Explained key={own.map(({ message }) => message).join()} causes={own} />
          ))}
        </ol>
      )}
      {notes.map((sentence) => (
        <p key={sentence} class="note">
          <Said text={sentence} />
        </p>
      ))}
    </>
  );
}

/** Causes that hold together, the likeliest explanation first. */
function explanationsOf(causes: readonly LikelyCause[]): readonly (readonly LikelyCause[])[] {
  const numberOf = ({ explanation }: LikelyCause, i: number) => explanation ?? -i;
  const numbers = [...new Set(causes.map(numberOf))];
  return numbers.map((number) => causes.filter((cause, i) => numberOf(cause, i) === number));
}

function Explained({ causes }: { readonly causes: readonly LikelyCause[] }): VNode | null {
  const [first, ...others] = causes;
  if (first === undefined) return null;
  if (others.length === 0)
    return (
      <li {...placeOf(first.path)}>
        <Cause cause={first} isAlone />
      </li>
    );
  return (
    <li>
      {TOGETHER}
      <ul>
        {causes.map((cause) => (
          <li key={cause.message} {...placeOf(cause.path)}>
            <Cause cause={cause} isAlone={false} />
          </li>
        ))}
      </ul>
    </li>
  );
}

function Cause({
  cause: { path, message, before, after, evidence },
  isAlone,
}: {
  readonly cause: LikelyCause;
  readonly isAlone: boolean;
}): VNode {
  const [was, is] = [before.toPrecision(2), after.toPrecision(2)];
  return (
    <>
      <ToSource path={path}>
        <Said text={message} />
      </ToSource>
      <p class="note">
        {isAlone
          ? `Recomputed with it, the misfit falls from ${was} to ${is}.`
          : `Of what the others leave, ${was}, it takes the misfit down to ${is}.`}
      </p>
      {evidence.map((sentence) => (
        <p key={sentence} class="note">
          <Said text={sentence} />
        </p>
      ))}
    </>
  );
}
