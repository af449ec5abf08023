// The frame of a chart: axes, grid and a field for what is drawn. Words keep their size at any width.
//
// Positions across are shares of the width (percent), so that one drawing serves a narrow pane, a wide one and paper without
// anyone measuring. Curves live in a field of 1000 × 1000 that is stretched; their strokes are not.

import type { ComponentChildren, VNode } from 'preact';

export interface Tick {
  /** 0 … 1 along the axis, from the left or from the bottom. */
  readonly share: number;
  /** Empty for a grid line without a word. */
  readonly text: string;
}

interface PlotProps {
  /** What the chart shows, for who cannot see it; its table follows it. */
  readonly label: string;
  readonly height_px: number;
  readonly across: { readonly title: string; readonly ticks: readonly Tick[] };
  /** `foot` names what counts downwards, where a chart is mirrored. */
  readonly up: { readonly title: string; readonly ticks: readonly Tick[]; readonly foot?: string };
  readonly children: ComponentChildren;
}

const AXIS_PX = 34;
const TOP_PX = 20;

/** The field's own height inside a plot of that height: what children count in. */
export function fieldHeight_px(height_px: number): number {
  return height_px - AXIS_PX - TOP_PX;
}

export function percent(share: number): string {
  return `${Number((share * 100).toFixed(3))}%`;
}

export function Plot({ label, height_px, across, up, children }: PlotProps): VNode {
  const field_px = fieldHeight_px(height_px);
  return (
    <div class="plot">
      <svg class="plot-up" width="46" height={height_px} aria-hidden="true">
        <text class="axis-title" x="0" y="11">
          {up.title}
        </text>
        {up.foot === undefined ? null : (
          <text class="axis-title" x="0" y={height_px - 4}>
            {up.foot}
          </text>
        )}
        {up.ticks.map(({ share, text }) => (
          <text key={share} x="40" y={TOP_PX + (1 - share) * field_px + 4} text-anchor="end">
            {text}
          </text>
        ))}
      </svg>
      <svg class="plot-field" width="100%" height={height_px} role="img" aria-label={label}>
        <svg y={TOP_PX} width="100%" height={field_px} overflow="visible" aria-hidden="true">
          {up.ticks.map(({ share, text }) => (
            <line
              key={share}
              class={text === '' ? 'grid' : 'grid grid-worded'}
              x1="0"
              x2="100%"
              y1={(1 - share) * field_px}
              y2={(1 - share) * field_px}
            />
          ))}
          {across.ticks.map(({ share, text }) => (
            <line
              key={share}
              class={text === '' ? 'grid' : 'grid grid-worded'}
              x1={percent(share)}
              x2={percent(share)}
              y1="0"
              y2={field_px}
            />
          ))}
          {children}
        </svg>
        {across.ticks.map(({ share, text }) => (
          <text key={share} x={percent(share)} y={TOP_PX + field_px + 15} text-anchor="middle">
            {text}
          </text>
        ))}
        <text class="axis-title" x="100%" y={height_px - 4} text-anchor="end">
          {across.title}
        </text>
      </svg>
    </div>
  );
}

/** Curves for the stretched field: points as shares, 0 … 1000 both ways, y downwards. */
export function Curves({
  height_px,
  children,
}: {
  readonly height_px: number;
  readonly children: ComponentChildren;
}): VNode {
  return (
    <svg
      class="curves"
      aria-hidden="true"
      width="100%"
      height={fieldHeight_px(height_px)}
      viewBox="0 0 1000 1000"
      preserveAspectRatio="none"
    >
      {children}
    </svg>
  );
}
