// Jumps to the drawing of a place that someone asked for: at once, or as soon as it is drawn, for takes are read for a while.

import type { Path } from '../../../schema/model/path.ts';

export interface Jumps {
  readonly to: (path: Path) => void;
  /** Called after each drawing of the sheet. */
  readonly onDrawn: () => void;
}

/** Whoever begins to look around by themselves does not want to be taken away any more. */
const OWN_WAY = ['wheel', 'pointerdown', 'keydown'] as const;

export function createJumps(page: Window): Jumps {
  let wanted: Path | null = null;
  const giveUp = (): void => {
    wanted = null;
  };
  for (const kind of OWN_WAY) page.addEventListener(kind, giveUp, { passive: true });
  const tryIt = (): void => {
    const drawing = wanted === null ? null : drawingOf(page.document, wanted);
    if (drawing === null) return;
    wanted = null;
    const fold = drawing.closest('details');
    if (fold !== null) fold.open = true;
    drawing.scrollIntoView({ block: 'center' });
  };
  return {
    to: (path) => {
      wanted = path;
      tryIt();
    },
    onDrawn: tryIt,
  };
}

function drawingOf(root: ParentNode, path: Path): Element | null {
  const place = JSON.stringify(path);
  return (
    [...root.querySelectorAll('[data-drawing]')].find(
      (element) => element.getAttribute('data-drawing') === place,
    ) ?? null
  );
}
