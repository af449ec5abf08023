// The setup to draw while something is moved: worked out here on the moved room, so that no round trip stands between hand
// and picture. When it is let go, one edit goes to the host, and the picture stays until the file's own setup arrives.

import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type Movable, type PlanPlace, withMoved } from '../../../core/parts/moveThing.ts';
import type { Setup } from '../../../core/setup.ts';
import { showFor } from '../../../core/show.ts';
import { createWorkOut, type WorkOut } from '../../../core/workOut.ts';
import type { Asking } from './asking.ts';
import { followDrags } from './drag.ts';
import { type FieldFollower, useFollower } from './followField.ts';
import type { Host } from './host.ts';
import { useKeptField } from './keptField.ts';
import { moveEdits, placeIn, settled } from './moveRoom.ts';
import type { PaneView } from './paneView.ts';

interface Moved {
  readonly movable: Movable;
  readonly place: PlanPlace;
  /** What is drawn in place of the file's. */
  readonly setup: Setup;
}

interface Moving {
  readonly setup: Setup | null;
  /** Where the moved thing stands, for who cannot see it. */
  readonly said: string | null;
}

export function useMoving(
  root: RefObject<HTMLDivElement | null>,
  view: PaneView,
  host: Host,
  ask: Asking,
): Moving {
  const [moved, setMoved] = useState<Moved | null>(null);
  const latest = useRef({ view, moved });
  latest.current = { view, moved };

  const follower = useFollower(view.setup, ask);

  // Whatever the host said last counts: the file has changed, or refused to. Each word of it, so `told` alone is looked at.
  useEffect(() => setMoved(null), [view.told]);

  useEffect(() => {
    if (root.current === null) return undefined;
    const workOut = createWorkOut();
    let frame = 0;
    let catchUp: ReturnType<typeof setTimeout> | undefined;
    let wanted: { readonly movable: Movable; readonly place: PlanPlace } | null = null;
    const draw = (): void => {
      clearTimeout(catchUp);
      const { setup, version } = latest.current.view;
      if (wanted === null || setup === null) return;
      const workers = { workOut, follower, version };
      const next = movedTo(setup, wanted.movable, wanted.place, workers);
      latest.current = { ...latest.current, moved: next };
      setMoved(next);
      const behind_ms = follower.behind_ms();
      if (behind_ms !== null) catchUp = setTimeout(draw, behind_ms);
    };
    follower.onNews(draw);
    const stop = followDrags(root.current, {
      start: (movable) => {
        const { view: now, moved: at } = latest.current;
        if (at !== null && at.movable.id === movable.id) return at.place;
        return now.setup === null ? null : placeIn(now.setup.room, movable);
      },
      move: (movable, place) => {
        wanted = { movable, place };
        cancelAnimationFrame(frame);
        frame = requestAnimationFrame(draw);
      },
      end: () => {
        cancelAnimationFrame(frame);
        draw();
        wanted = null;
        const { view: now, moved: at } = latest.current;
        const edits =
          at === null || now.setup === null ? [] : moveEdits(now.setup.room, at.movable, at.place);
        if (at === null || edits.length === 0) return setMoved(null);
        host.say({ kind: 'edit', version: now.version, title: `Move ${at.movable.id}`, edits });
      },
      cancel: () => {
        cancelAnimationFrame(frame);
        wanted = null;
        setMoved(null);
      },
    });
    return () => {
      cancelAnimationFrame(frame);
      clearTimeout(catchUp);
      stop();
    };
  }, [follower, host, root]);

  const setup = useKeptField(view, moved?.setup ?? null);
  if (moved === null || view.setup === null) return { setup, said: null };
  const show = showFor(view.setup.room.habits);
  const { movable, place } = moved;
  return {
    setup,
    said: `${movable.id}: ${show.length(place.x_m)} from the left, ${show.length(place.y_m)} from the front`,
  };
}

interface Workers {
  readonly workOut: WorkOut;
  readonly follower: FieldFollower;
  readonly version: number;
}

function movedTo(
  setup: Setup,
  movable: Movable,
  place: PlanPlace,
  { workOut, follower, version }: Workers,
): Moved {
  const at = settled(setup.room, place);
  const room = withMoved(setup.room, movable, at);
  const options = { today: null, defaultTemperature_k: setup.air.temperature_k };
  const to = { thing: movable, place: at, version };
  return { movable, place: at, setup: follower.follow(workOut(room, options), setup, to) };
}
