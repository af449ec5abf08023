// The button that begins a search in the pane; while it runs, the same button stops it.

import type { VNode } from 'preact';
import type { Wanted } from '../protocol/search.ts';
import type { Trials } from './live.ts';

interface SearchButtonProps {
  readonly wanted: Wanted;
  /** "Find places for sub". */
  readonly begin: string;
  /** "Searching places for sub". */
  readonly running: string;
  readonly trials: Trials;
}

export function SearchButton({ wanted, begin, running, trials }: SearchButtonProps): VNode {
  const { searching } = trials;
  const isOwn = searching !== null && isSame(searching, wanted);
  return (
    <button
      type="button"
      class="act"
      disabled={searching !== null && !isOwn}
      onClick={() => (isOwn ? trials.stop() : trials.search(wanted))}
    >
      {isOwn ? `${running} … Stop` : begin}
    </button>
  );
}

function isSame(one: Wanted, other: Wanted): boolean {
  return (
    one.what === other.what &&
    one.id === other.id &&
    one.session === other.session &&
    one.seats?.join() === other.seats?.join()
  );
}
