// What the page hears from its host, as state: what to show, and which place the editor's cursor is on.

import { useEffect, useLayoutEffect, useMemo, useReducer, useRef } from 'preact/hooks';
import type { Path } from '../../../schema/model/path.ts';
import { bringIntoView, markPlace } from './highlight.ts';
import type { Host } from './host.ts';
import { createJumps } from './jumps.ts';
import { heard, NOTHING_YET, type PaneView } from './paneView.ts';

export function useHearing(host: Host): PaneView {
  const [view, tell] = useReducer(heard, NOTHING_YET);
  const here = useRef<Path | null>(null);
  const jumps = useMemo(() => createJumps(window), []);
  useEffect(() => {
    const stop = host.listen((message) => {
      tell(message);
      if (message.kind === 'jump') jumps.to(message.path);
      if (message.kind !== 'highlight') return;
      const isAnother = JSON.stringify(message.path) !== JSON.stringify(here.current);
      here.current = message.path;
      const marked = markPlace(document, message.path);
      // The same place again: someone types there, and the page stays where it is.
      if (isAnother) bringIntoView(marked);
    });
    host.say({ kind: 'ready' });
    return stop;
  }, [host]);
  // What was drawn anew may show the cursor's place in new elements. After every drawing, as a move draws too.
  useLayoutEffect(() => {
    markPlace(document, here.current);
    jumps.onDrawn();
  });
  return view;
}
