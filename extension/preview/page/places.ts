// Finds the drawn elements of a place of the file, and the place of an element.

import { isAtOrBelow, type Path } from '../../../schema/model/path.ts';

/** The place that an element, or what it lies in, shows; null where it shows none. */
export function placeUnder(element: Element | null): Path | null {
  const holder = element?.closest('[data-path]') ?? null;
  return holder === null ? null : readPlace(holder);
}

/**
 * The elements that show this place as exactly as any does: those of the deepest place at or above it; failing that,
 * those of places below it.
 */
export function elementsAt(root: ParentNode, path: Path): readonly Element[] {
  const all = [...root.querySelectorAll('[data-path]')].map((element) => ({
    element,
    place: readPlace(element),
  }));
  const above = all.filter(({ place }) => 0 < place.length && isAtOrBelow(path, place));
  const deepest = Math.max(0, ...above.map(({ place }) => place.length));
  const exact = above.filter(({ place }) => place.length === deepest);
  const below = all.filter(({ place }) => isAtOrBelow(place, path));
  const isExact = deepest === path.length || below.length === 0;
  return (isExact ? exact : below).map(({ element }) => element);
}

function readPlace(element: Element): Path {
  return JSON.parse(element.getAttribute('data-path') ?? '[]');
}
