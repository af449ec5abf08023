// The bar over the sheet while something is tried on: says so, writes it, or goes back to the file.

import type { VNode } from 'preact';
import type { Trials } from '../../../server/sheet/live.ts';

interface TrialBarProps {
  readonly trials: Trials;
  readonly isWorking: boolean;
}

export function TrialBar({ trials, isWorking }: TrialBarProps): VNode | null {
  const { triedOn } = trials;
  if (triedOn === null) return null;
  return (
    <section class="trial-bar" aria-label="Tried on">
      <p>
        <strong>Tried on</strong>
        {`: ${triedOn.title}. ${isWorking ? 'Being worked out …' : 'The file is as it was.'}`}
      </p>
      <button type="button" class="act" onClick={() => trials.write(triedOn)}>
        Write it into the file
      </button>
      <button type="button" class="act" onClick={trials.back}>
        Back to the file (Escape)
      </button>
    </section>
  );
}
