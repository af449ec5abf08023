// Measures the room there is for the drawings, so that they are drawn at their true size and their words keep theirs.

export interface Widths {
  readonly planWidth_px: number | null;
  readonly sideWidth_px: number | null;
}

/** Calls back at first and whenever a width has changed by a visible step. The answer ends it. */
export function followWidths(root: HTMLElement, changed: (widths: Widths) => void): () => void {
  const observer = new ResizeObserver(() => changed(measure(root)));
  for (const box of root.querySelectorAll('.drawing-box')) observer.observe(box);
  changed(measure(root));
  return () => observer.disconnect();
}

function measure(root: HTMLElement): Widths {
  return {
    planWidth_px: widthOf(root, '.drawing-box-plan'),
    sideWidth_px: widthOf(root, '.drawing-box-side'),
  };
}

/** In steps, so that a moving divider does not redraw at every pixel. */
function widthOf(root: HTMLElement, selector: string): number | null {
  const width = root.querySelector(selector)?.clientWidth ?? 0;
  return 0 < width ? Math.max(240, Math.floor(width / 4) * 4) : null;
}
