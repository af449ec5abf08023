// The way back to the file: everything drawn says which place of the file it shows.

import type { ComponentChildren, VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Path } from '../../schema/model/path.ts';
import { LiveContext } from './live.ts';

/** To be spread on any element: the place that it shows. */
export function placeOf(path: Path): { readonly 'data-path': string } {
  return { 'data-path': JSON.stringify(path) };
}

/** Where a jump to this place leads, of all that shows it. */
export function drawingOf(path: Path): { readonly 'data-drawing': string } {
  return { 'data-drawing': JSON.stringify(path) };
}

/** As `placeOf`, for drawings: in the pane the keyboard reaches it too. */
export function useReachable(path: Path, label: string): Readonly<Record<string, string | number>> {
  const { live } = useContext(LiveContext);
  return live
    ? { ...placeOf(path), tabindex: 0, role: 'button', 'aria-label': label }
    : placeOf(path);
}

interface ToSourceProps {
  readonly path: Path;
  readonly children: ComponentChildren;
  readonly class?: string;
}

/** Words that lead to their place: a button in the pane, plain words on paper. */
export function ToSource({ path, children, class: extra }: ToSourceProps): VNode {
  const { live } = useContext(LiveContext);
  const name = ['to-source', extra].filter(Boolean).join(' ');
  if (!live) {
    return (
      <span class={name} {...placeOf(path)}>
        {children}
      </span>
    );
  }
  return (
    <button type="button" class={name} {...placeOf(path)}>
      {children}
    </button>
  );
}
