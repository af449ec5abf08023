// The low end while something is moved: worked out here on the moved room, as often as frames allow.
//
// Box rooms are worked out here. The modes of others, by finite elements, are kept by the server, which is asked for them: the curves
// come a few frames later. Curves come without their envelope, which costs several times as much.

import { useEffect, useMemo } from 'preact/hooks';
import type { FieldFigures } from '../../../core/fieldFigures.ts';
import { createFieldWork } from '../../../core/parts/field.ts';
import type { Movable, PlanPlace } from '../../../core/parts/moveThing.ts';
import type { Setup } from '../../../core/setup.ts';
import { type Asking, newestOnly } from './asking.ts';

/** What a frame of 16 ms leaves for it, beside all else that is worked out and drawn. */
const FRAME_SHARE_MS = 8;

export interface MovedTo {
  readonly thing: Movable;
  readonly place: PlanPlace;
  /** That of the file's text. */
  readonly version: number;
}

export interface FieldFollower {
  /** Works the room out as it stands, so that the first move need not. */
  readonly prepare: (setup: Setup) => void;
  /**
   * The moved setup with its low end: its own, or the last one known while there is no time for it.
   * @param shown what the file says
   * @param at what was moved, and where it is now
   */
  readonly follow: (moved: Setup, shown: Setup, at: MovedTo) => Setup;
  /** Called where the server has answered: what is drawn may be drawn with it. */
  readonly onNews: (act: () => void) => void;
  /** How long until what was left out for want of time can be worked out; null where nothing was. */
  readonly behind_ms: () => number | null;
}

/** After the sheet was drawn anew, and only if no newer one comes at once. */
const QUIET_MS = 300;

/** @param setup what the file says */
export function useFollower(setup: Setup | null, ask: Asking): FieldFollower {
  const follower = useMemo(() => createFieldFollower(ask), [ask]);
  useEffect(() => {
    if (setup === null) return undefined;
    const timer = setTimeout(() => follower.prepare(setup), QUIET_MS);
    return () => clearTimeout(timer);
  }, [follower, setup]);
  return follower;
}

function createFieldFollower(ask: Asking): FieldFollower {
  const work = createFieldWork();
  let last: { readonly of: Setup; readonly field: FieldFigures | null } | null = null;
  let freeFrom_ms = 0;
  let isBehind = false;
  let news: () => void = () => undefined;
  let shownLast: Setup | null = null;
  const asked = newestOnly(ask, ({ field }) => {
    if (field === null || shownLast === null) return;
    last = { of: shownLast, field };
    news();
  });
  return {
    prepare(setup) {
      if (follows(setup)) work(setup, { envelope: false });
    },
    onNews(act) {
      news = act;
    },
    follow(moved, shown, { thing, place, version }) {
      if (!follows(shown)) {
        shownLast = shown;
        asked.want({ version, ask: { kind: 'moved', thing, place } });
        return withField(moved, last?.of === shown ? last.field : shown.field);
      }
      const begun_ms = performance.now();
      isBehind = begun_ms < freeFrom_ms;
      if (isBehind) return withField(moved, last?.of === shown ? last.field : shown.field);
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

/** Here, in the page. */
function follows({ field }: Setup): boolean {
  return field?.method === 'box';
}

function withField(setup: Setup, field: Setup['field']): Setup {
  return field === undefined ? setup : { ...setup, field };
}
