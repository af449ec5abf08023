// What a session's takes come to against the plan: that they agree, what would explain where they do not, or that nobody can tell.

import type { VNode } from 'preact';
import type { LikelyCause, SessionVerdict } from '../../../core/measured/verification.ts';
import { Said } from '../said.tsx';
import { placeOf, ToSource } from '../source.tsx';
import { explanationsOf, verdictNotes, verdictText } from './verdictText.ts';

const TOGETHER = 'Only together:';

export function Verdict({ verdict }: { readonly verdict: SessionVerdict | null }): VNode | null {
  if (verdict === null) return null;
  const { causes } = verdict;
  return (
    <>
      <p>{verdictText(verdict)}</p>
      {causes.length === 0 ? null : (
        <ol class="causes">
          {explanationsOf(causes).map((own) => (
            <Explained key={own.map(({ message }) => message).join()} causes={own} />
          ))}
        </ol>
      )}
      {verdictNotes(verdict).map((sentence) => (
        <p key={sentence} class="note">
          <Said text={sentence} />
        </p>
      ))}
    </>
  );
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
  const [was, is] = [before, after].map((misfit) => String(Number(misfit.toPrecision(2))));
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
