// A sentence from a rule or a problem: its figures typeset, what it quotes in backticks set as the file's own words.

import type { VNode } from 'preact';
import { typeset } from './words.ts';

export function Said({ text }: { readonly text: string }): VNode {
  return (
    <>
      {text
        .split('`')
        .map((piece, index) =>
          index % 2 === 1 ? <code key={`${index} ${piece}`}>{piece}</code> : typeset(piece),
        )}
    </>
  );
}
