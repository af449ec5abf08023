// After a move the curves stay where the hand left them, until the file's own low end is that of the moved room.

import { useRef } from 'preact/hooks';
import type { Setup } from '../../../core/setup.ts';
import type { PaneView } from './paneView.ts';

/**
 * The setup to draw: the moved one while something is moved; the file's; or the file's with the low end of the last move, while
 * the file's own is still that of the version before.
 */
export function useKeptField(view: PaneView, moved: Setup | null): Setup | null {
  const kept = useRef<{ readonly uri: string | null; readonly field: Setup['field'] } | null>(null);
  if (moved !== null) {
    kept.current = { uri: view.uri, field: moved.field };
    return moved;
  }
  const { setup, isFieldOlder, uri } = view;
  if (!isFieldOlder) kept.current = null;
  const field = kept.current?.uri === uri ? kept.current?.field : undefined;
  return setup === null || field === undefined ? setup : { ...setup, field };
}
