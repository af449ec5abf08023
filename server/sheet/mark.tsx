// Marks that differ by form, each with its word: a tick, a cross, an open ring, the four severities.

import type { VNode } from 'preact';
import type { Severity } from '../../schema/model/problem.ts';

export type MarkKind = 'agrees' | 'differs' | 'open' | Severity;

/** Drawn in a 12 × 12 field. */
const FORMS: Readonly<Record<MarkKind, string>> = {
  agrees: 'M2 6.5 L5 9.5 L10.5 2.5',
  differs: 'M2.5 2.5 L9.5 9.5 M9.5 2.5 L2.5 9.5',
  open: 'M6 2 A4 4 0 1 1 5.99 2 Z',
  error: 'M4 1 H8 L11 4 V8 L8 11 H4 L1 8 V4 Z M4 4 L8 8 M8 4 L4 8',
  warning: 'M6 1 L11.3 10.8 H0.7 Z M6 4.6 V7.4 M6 8.9 V9.4',
  information: 'M6 1 A5 5 0 1 1 5.99 1 Z M6 5.4 V8.8 M6 3.1 V3.6',
  hint: 'M6 1.2 L10.8 6 L6 10.8 L1.2 6 Z',
};

/** The word beside it says the same: the mark itself is silent to a screen reader. */
export function Mark({ kind }: { readonly kind: MarkKind }): VNode {
  return (
    <svg class={`mark mark-${kind}`} width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
      <path d={FORMS[kind]} />
    </svg>
  );
}
