// One section of the sheet: its number in the order of the job, its heading, its content.

import type { ComponentChildren, VNode } from 'preact';

interface SectionProps {
  readonly id: string;
  readonly title: string;
  /** One line under the heading: what it says in brief. */
  readonly brief?: ComponentChildren;
  readonly children: ComponentChildren;
}

/** Numbers come from a CSS counter, so that a section that is left out leaves no gap. */
export function Section({ id, title, brief, children }: SectionProps): VNode {
  return (
    <section class="part" id={id} aria-labelledby={`${id}-title`}>
      <div class="part-head">
        <h2 id={`${id}-title`}>{title}</h2>
        {brief === undefined || brief === '' ? null : <p class="brief">{brief}</p>}
      </div>
      <div class="part-body">{children}</div>
    </section>
  );
}

interface FoldProps {
  readonly id: string;
  readonly summary: string;
  /** True where paper does not need it: hundreds of rows. */
  readonly isLong?: boolean;
  readonly children: ComponentChildren;
}

/** What not everyone needs at once, such as a chart's table. Printed open, unless it is long. */
export function Fold({ id, summary, isLong, children }: FoldProps): VNode {
  return (
    <details class={isLong ? 'fold fold-long' : 'fold'} id={id}>
      <summary>{summary}</summary>
      {children}
    </details>
  );
}

interface WideProps {
  readonly label: string;
  readonly children: ComponentChildren;
}

/** What may be wider than a narrow pane: it scrolls by itself, by keyboard too. */
export function Wide({ label, children }: WideProps): VNode {
  return (
    <section class="wide" aria-label={label} tabindex={0}>
      {children}
    </section>
  );
}

/** `isTight`: short figures that must not break. */
export function WideTable({
  label,
  isTight,
  children,
}: WideProps & { readonly isTight?: boolean }): VNode {
  return (
    <Wide label={label}>
      <table class={isTight ? 'tight' : undefined}>{children}</table>
    </Wide>
  );
}
