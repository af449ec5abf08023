// The two buttons of a candidate: try it on, or put it off again; write it into the file.

import type { VNode } from 'preact';
import type { Trial, Trials } from './live.ts';

interface TrialButtonsProps {
  readonly trial: Trial;
  readonly trials: Trials;
}

export function TrialButtons({ trial, trials }: TrialButtonsProps): VNode {
  const isTried = trials.triedOn?.key === trial.key;
  return (
    <span class="trial-buttons">
      <button
        type="button"
        class="act"
        aria-pressed={isTried}
        aria-label={`Try on: ${trial.title}`}
        onClick={() => (isTried ? trials.back() : trials.tryOn(trial))}
      >
        Try on
      </button>
      <button
        type="button"
        class="act"
        aria-label={`Write it into the file: ${trial.title}`}
        onClick={() => trials.write(trial)}
      >
        Write it
      </button>
    </span>
  );
}
