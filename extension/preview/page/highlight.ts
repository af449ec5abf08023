// Points out what the editor's cursor stands on. Marks are an attribute of their own, which redrawing leaves alone.

import type { Path } from '../../../schema/model/path.ts';
import { elementsAt } from './places.ts';

const MARK = 'data-here';

/** Marks the elements of this place and no others. */
export function markPlace(root: ParentNode, path: Path | null): readonly Element[] {
  const wanted = path === null || path.length === 0 ? [] : elementsAt(root, path);
  for (const element of root.querySelectorAll(`[${MARK}]`)) {
    if (!wanted.includes(element)) element.removeAttribute(MARK);
  }
  for (const element of wanted) element.setAttribute(MARK, '');
  return wanted;
}

/** Brings the first of them into view, unless one is in view already. */
export function bringIntoView(elements: readonly Element[]): void {
  const shown = elements.filter((element) => element.checkVisibility());
  if (shown.some(isInView)) return;
  shown[0]?.scrollIntoView({ block: 'center' });
}

function isInView(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return 0 <= bottom && top <= window.innerHeight - 24;
}
