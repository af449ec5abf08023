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

export function Verdict({ verdict }: { readonly verdict: SessionVerdict | null }): VNode | null {
  if (verdict === null) return null;
  const { causes, cannotTell } = verdict;
  return (
    <>
      <p>{VERDICTS[verdict.verdict]}</p>
      {causes.length === 0 ? null : (
        <ol class="causes">
          {causes.map((cause) => (
            <Cause key={cause.message} cause={cause} />
          ))}
        </ol>
      )}
      {cannotTell.map((sentence) => (
        <p key={sentence} class="note">
          <Said text={sentence} />
        </p>
      ))}
    </>
  );
}

function Cause({
  cause: { path, message, before, after, evidence },
}: {
  readonly cause: LikelyCause;
}): VNode {
  return (
    <li {...placeOf(path)}>
      <ToSource path={path}>
        <Said text={message} />
      </ToSource>
      <p class="note">{`Recomputed with it, the misfit falls from ${before.toPrecision(2)} to ${after.toPrecision(2)}.`}</p>
      {evidence.map((sentence) => (
        <p key={sentence} class="note">
          <Said text={sentence} />
        </p>
      ))}
    </li>
  );
}
