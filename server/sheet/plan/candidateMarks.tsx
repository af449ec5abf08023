// Candidates as numbered marks on the plan, to be tried on by click or key; and where things stand in the file meanwhile.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { FoundPlace } from '../../protocol/search.ts';
import { LiveContext, type Trials } from '../live.ts';
import { candidateSentence, candidatesOf, type NumberedCandidate } from './candidateWords.ts';
import { type Frame, round } from './frame.ts';

/** A little more than a finger needs to hit. */
const RADIUS = 9;

interface CandidateMarksProps {
  /** What is drawn: with what is tried on. */
  readonly setup: Setup;
  readonly frame: Frame;
  readonly show: Show;
}

export function CandidateMarks({ setup, frame, show }: CandidateMarksProps): VNode | null {
  const { trials } = useContext(LiveContext);
  if (trials === null) return null;
  const candidates = candidatesOf(trials.found);
  if (candidates.length === 0) return null;
  return (
    <g class="candidates">
      {movedFrom(setup, trials).map(({ id, at }) => {
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
      {candidates
        .toReversed()
        .flatMap((candidate) =>
          placesOf(candidate.place).map((at, index) => (
            <CandidateMark
              key={`${candidate.trial.key} ${index}`}
              candidate={candidate}
              at={at}
              trials={trials}
              frame={frame}
              show={show}
            />
          )),
        )}
    </g>
  );
}

/** Where the file has what is drawn elsewhere now, because it is tried on there. */
function movedFrom({ room }: Setup, { triedOn, standing }: Trials): Trials['standing'] {
  if (triedOn === null) return [];
  const drawn = new Map(
    [...room.subwoofers, ...room.speakers, ...room.seats].map(({ id, at }) => [id, at]),
  );
  return standing.filter(({ id, at }) => {
    const now = drawn.get(id);
    return now && (now.x_m !== at.x_m || now.y_m !== at.y_m);
  });
}

/** Both of a pair. */
function placesOf({ at, otherAt }: FoundPlace): readonly Point[] {
  return otherAt === null ? [at] : [at, otherAt];
}

function CandidateMark({
  candidate,
  at,
  trials,
  frame,
  show,
}: {
  readonly candidate: NumberedCandidate;
  readonly at: Point;
  readonly trials: Trials;
  readonly frame: Frame;
  readonly show: Show;
}): VNode {
  const { number, trial } = candidate;
  const { x, y } = frame.toDrawing(at.x_m, at.y_m);
  const isTried = trials.triedOn?.key === trial.key;
  const act = (): void => (isTried ? trials.back() : trials.tryOn(trial));
  const label = candidateSentence(candidate, at, show);
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
