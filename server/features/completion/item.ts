// An item of completion before it becomes the protocol's: what it is called, what it writes, how far up it stands.

import type { CompletionItemKind } from 'vscode-languageserver';

export interface Item {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** The text to write; in snippets the client's own fields (`${1:…}`). */
  readonly text: string;
  readonly isSnippet: boolean;
  /** Groups in the list: 0 first. */
  readonly rank: number;
  /** A few words beside the label. */
  readonly detail: string | null;
  /** Markdown. */
  readonly documentation: string | null;
  /** What typing is matched with, where that is not the label. */
  readonly filter: string | null;
  /** Choosing it should ask again, for the value behind the key. */
  readonly asksAgain: boolean;
}

export function valueItem(
  label: string,
  kind: CompletionItemKind,
  more: Partial<Omit<Item, 'label' | 'kind'>> = {},
): Item {
  return {
    label,
    kind,
    text: label,
    isSnippet: false,
    rank: 1,
    detail: null,
    documentation: null,
    filter: null,
    asksAgain: false,
    ...more,
  };
}
