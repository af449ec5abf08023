// The low end while something is moved: worked out here on the moved room, as often as frames allow.
//
// Box rooms only: finite elements take longer than a hand waits, so that in other rooms the curves stay as they were until the
// thing is let go. Curves come without their envelope, which costs several times as much.

import { useEffect, useMemo } from 'preact/hooks';
import type { FieldFigures } from '../../../core/fieldFigures.ts';
import { createFieldWork } from '../../../core/parts/field.ts';
import type { Setup } from '../../../core/setup.ts';

/** What a frame of 16 ms leaves for it, beside all else that is worked out and drawn. */
const FRAME_SHARE_MS = 8;

export interface FieldFollower {
  /** Works the room out as it stands, so that the first move need not. */
  readonly prepare: (setup: Setup) => void;
  /**
   * The moved setup with its low end: its own, or the last one known while there is no time for it.
   * @param shown what the file says
   */
  readonly follow: (moved: Setup, shown: Setup) => Setup;
  /** How long until what was left out for want of time can be worked out; null where nothing was. */
  readonly behind_ms: () => number | null;
}

/** After the sheet was drawn anew, and only if no newer one comes at once. */
const QUIET_MS = 300;

/** @param setup what the file says */
export function useFollower(setup: Setup | null): FieldFollower {
  const follower = useMemo(createFieldFollower, []);
  useEffect(() => {
    if (setup === null) return undefined;
    const timer = setTimeout(() => follower.prepare(setup), QUIET_MS);
    return () => clearTimeout(timer);
  }, [follower, setup]);
  return follower;
}

function createFieldFollower(): FieldFollower {
  const work = createFieldWork();
  let last: { readonly of: Setup; readonly field: FieldFigures | null } | null = null;
  let freeFrom_ms = 0;
  let isBehind = false;
  return {
    prepare(setup) {
      if (follows(setup)) work(setup, { envelope: false });
    },
    follow(moved, shown) {
      const begun_ms = performance.now();
      isBehind = follows(shown) && begun_ms < freeFrom_ms;
      if (!follows(shown) || isBehind)
        return withField(moved, last?.of === shown ? last.field : shown.field);
      const { field } = work(moved, { envelope: false });
      last = { of: shown, field };
      const now_ms = performance.now();
      // What took longer than its share is paid back before it is done again.
      freeFrom_ms = now_ms - begun_ms < FRAME_SHARE_MS ? 0 : 2 * now_ms - begun_ms;
      return withField(moved, field);
    },
    behind_ms: () => (isBehind ? Math.max(0, freeFrom_ms - performance.now()) : null),
  };
}

function follows({ field }: Setup): boolean {
  return field?.method === 'box';
}

function withField(setup: Setup, field: Setup['field']): Setup {
  return field === undefined ? setup : { ...setup, field };
}
