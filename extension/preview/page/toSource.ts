// Clicks, and Enter on what has the focus, lead to the place in the file.

import type { Path } from '../../../schema/model/path.ts';
import { placeUnder } from './places.ts';

/** Calls back with the place of what was clicked. The answer ends it. */
export function followClicks(root: HTMLElement, reveal: (path: Path) => void): () => void {
  const onClick = (event: MouseEvent): void => {
    if (event.defaultPrevented || !(event.target instanceof Element)) return;
    // Someone who selects words to copy them wants to stay.
    if (window.getSelection()?.isCollapsed === false) return;
    if (event.target.closest('summary, .apply, .act') !== null) return;
    const path = placeUnder(event.target);
    if (path !== null) reveal(path);
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    // Buttons turn both keys into clicks themselves; drawings do not.
    if (event.defaultPrevented || !(event.target instanceof SVGElement)) return;
    const path = placeUnder(event.target);
    if (path === null) return;
    event.preventDefault();
    reveal(path);
  };
  root.addEventListener('click', onClick);
  root.addEventListener('keydown', onKey);
  return () => {
    root.removeEventListener('click', onClick);
    root.removeEventListener('keydown', onKey);
  };
}
