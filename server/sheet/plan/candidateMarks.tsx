// Candidates as numbered marks on the plan, to be tried on by click or key; and where a subwoofer stands in the file meanwhile.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Show } from '../../../core/show.ts';
import { LiveContext, type Trials } from '../live.ts';
import { candidateSentence, candidatesOf, type NumberedCandidate } from './candidateWords.ts';
import { type Frame, round } from './frame.ts';

/** A little more than a finger needs to hit. */
const RADIUS = 9;

export function CandidateMarks({
  frame,
  show,
}: {
  readonly frame: Frame;
  readonly show: Show;
}): VNode | null {
  const { trials } = useContext(LiveContext);
  if (trials === null) return null;
  const candidates = candidatesOf(trials.found);
  if (candidates.length === 0) return null;
  return (
    <g class="candidates">
      {trials.triedOn === null
        ? null
        : trials.standing.map(({ id, at }) => {
            const { x, y } = frame.toDrawing(at.x_m, at.y_m);
            return (
              <path
                key={id}
                class="candidate-standing"
                transform={`translate(${round(x)} ${round(y)})`}
                d="M-8 -8 h16 v16 h-16 Z"
              >
                <title>{`${id} in the file`}</title>
              </path>
            );
          })}
      {/* The best last, so that it lies on top. */}
      {candidates.toReversed().map((candidate) => (
        <CandidateMark
          key={candidate.trial.key}
          candidate={candidate}
          trials={trials}
          frame={frame}
          show={show}
        />
      ))}
    </g>
  );
}

function CandidateMark({
  candidate,
  trials,
  frame,
  show,
}: {
  readonly candidate: NumberedCandidate;
  readonly trials: Trials;
  readonly frame: Frame;
  readonly show: Show;
}): VNode {
  const { number, place, trial } = candidate;
  const { x, y } = frame.toDrawing(place.at.x_m, place.at.y_m);
  const isTried = trials.triedOn?.key === trial.key;
  const act = (): void => (isTried ? trials.back() : trials.tryOn(trial));
  const label = candidateSentence(candidate, show);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing has no button element
    <g
      class={isTried ? 'candidate candidate-tried' : 'candidate'}
      transform={`translate(${round(x)} ${round(y)})`}
      role="button"
      tabindex={0}
      aria-pressed={isTried}
      aria-label={label}
      onClick={(event) => {
        event.stopPropagation();
        act();
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        act();
      }}
    >
      <title>{label}</title>
      <path d={`M0 ${-RADIUS - 2} L${RADIUS + 2} 0 L0 ${RADIUS + 2} L${-RADIUS - 2} 0 Z`} />
      <text text-anchor="middle" y="3.6">
        {number}
      </text>
    </g>
  );
}
