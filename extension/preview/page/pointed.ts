// The frequency under the pointer in a response chart, for what is drawn at one frequency.

import { type Context, createContext, type RefObject } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';

export interface Pointed {
  /** Calls back for each frequency; the answer ends it. */
  readonly listen: (heard: (frequency_hz: number) => void) => () => void;
}

/** Nobody points outside a pane. */
export const PointedContext: Context<Pointed> = createContext<Pointed>({
  listen: () => () => undefined,
});

/** @param isDrawn the page's root is there */
export function usePointed(root: RefObject<HTMLDivElement | null>, isDrawn: boolean): Pointed {
  const listeners = useMemo(() => new Set<(frequency_hz: number) => void>(), []);
  useEffect(() => {
    const { current } = root;
    if (current === null) return undefined;
    const onMove = (event: PointerEvent): void => {
      // A pressed button drags or selects.
      if (event.buttons !== 0 || listeners.size === 0) return;
      const frequency_hz = frequencyAt(event);
      if (frequency_hz !== null) for (const heard of listeners) heard(frequency_hz);
    };
    current.addEventListener('pointermove', onMove, { passive: true });
    return () => current.removeEventListener('pointermove', onMove);
  }, [root, isDrawn, listeners]);
  return useMemo(
    () => ({
      listen: (heard) => {
        listeners.add(heard);
        return () => void listeners.delete(heard);
      },
    }),
    [listeners],
  );
}

/** Charts say from where to where their frequencies go; those are spaced evenly in octaves. */
function frequencyAt({ target, clientX }: PointerEvent): number | null {
  if (!(target instanceof Element)) return null;
  const chart = target.closest<HTMLElement>('figure[data-hz]');
  const field = chart?.querySelector('.plot-field')?.getBoundingClientRect();
  if (!chart || field === undefined || !(0 < field.width)) return null;
  const [from_hz = 0, to_hz = 0] = (chart.dataset.hz ?? '').split(' ').map(Number);
  const share = (clientX - field.left) / field.width;
  return 0 <= share && share <= 1 ? from_hz * (to_hz / from_hz) ** share : null;
}
