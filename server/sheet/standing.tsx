// How sure a figure is, told by form and by word: what was predicted never looks like what was measured.

import type { ComponentChildren, VNode } from 'preact';

/** `stated` stands in the file as a decision; `computed` follows from geometry alone; `predicted` waits for a measurement. */
export type Standing = 'measured' | 'stated' | 'computed' | 'predicted';

/** Measured figures are upright and framed; predicted ones slanted, on a dotted line. */
export function Valued({
  standing,
  children,
}: {
  readonly standing: Standing;
  readonly children: ComponentChildren;
}): VNode {
  return <span class={`value value-${standing}`}>{children}</span>;
}

const WORDS: Readonly<Record<Standing, string>> = {
  measured: 'measured',
  stated: 'from the file',
  computed: 'computed',
  predicted: 'predicted',
};

export function StandingWord({ standing }: { readonly standing: Standing }): VNode {
  return <span class={`standing standing-${standing}`}>{WORDS[standing]}</span>;
}
