// Keeps where the reader was: how far down, and which details stand open. A hidden pane's page is thrown away.

import type { Host } from './host.ts';

const SETTLE_MS = 150;

/** Saves the page's state whenever it has changed and come to rest. The answer ends it. */
export function keepState(host: Host, uri: string): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const save = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      host.remember({ uri, scroll_px: Math.round(window.scrollY), open: openIds() });
    }, SETTLE_MS);
  };
  window.addEventListener('scroll', save, { passive: true });
  // `toggle` does not bubble, but it can be caught on its way down.
  document.addEventListener('toggle', save, true);
  return () => {
    clearTimeout(timer);
    window.removeEventListener('scroll', save);
    document.removeEventListener('toggle', save, true);
  };
}

/** Puts the page where it was for this file; nothing is changed for another. */
export function restoreState(host: Host, uri: string): void {
  const state = host.remembered();
  const known = state !== null && state.uri === uri ? state : null;
  for (const id of known?.open ?? []) document.getElementById(id)?.setAttribute('open', '');
  // The drawings have taken their true size by the next frame: only then is the page as long as it was.
  requestAnimationFrame(() => {
    if (known !== null) window.scrollTo({ top: known.scroll_px, behavior: 'instant' });
    host.remember({ uri, scroll_px: Math.round(window.scrollY), open: openIds() });
  });
}

function openIds(): readonly string[] {
  return [...document.querySelectorAll('details[open]')].map(({ id }) => id);
}
