// How the low end was worked out and how far it may be trusted, in two sentences.

import type { VNode } from 'preact';
import type { FieldFigures, FieldMethod } from '../../../core/fieldFigures.ts';
import type { Show } from '../../../core/show.ts';
import { listed } from '../words.ts';

const METHODS: Readonly<Record<FieldMethod, string>> = {
  box: 'the exact sound field of a box with these walls',
  'flat ceiling': 'finite elements over the plan, times the modes of the height',
  'sloped ceiling': 'finite elements of the whole room',
};

export function Trust({
  field,
  show,
}: {
  readonly field: FieldFigures;
  readonly show: Show;
}): VNode {
  const { method, damping, level, uncertainty } = field;
  const damped =
    damping.from === 'measured'
      ? 'damping from the surfaces, scaled to the measured decay times'
      : 'damping from what is known of the surfaces';
  return (
    <>
      <p class="caveat">
        {`By ${METHODS[method]}; ${damped}${assumedText(damping.assumed)}. ${levelText(level)}`}
      </p>
      {uncertainty === null ? null : (
        <p class="caveat">
          {`The band around each curve is where ${uncertainty.draws} slightly different rooms go: walls ±${show.smallLength(uncertainty.dimension_m)}, sources ±${show.smallLength(uncertainty.sourcePosition_m)}, seats ±${show.smallLength(uncertainty.seatPosition_m)}, temperature ±${uncertainty.temperature_k.toFixed(0)} K, absorption up to ${uncertainty.absorption_ratio.toFixed(1)} times more or less, modes ±${(uncertainty.construction_ratio * 100).toFixed(1)} % by how the walls are built. Gear is taken at its word.`}
        </p>
      )}
    </>
  );
}

function assumedText(assumed: readonly string[]): string {
  return assumed.length === 0 ? '' : `; nothing is known of ${listed(assumed)}, taken as ordinary`;
}

function levelText({ kind, input_dbfs, level_dbspl }: FieldFigures['level']): string {
  const input = `${input_dbfs} dBFS`.replace('-', '\u2212');
  return kind === 'absolute'
    ? `Levels are those of ${input} at the source’s output.`
    : `Levels are matched, not absolute: each loudspeaker is taken to reach ${level_dbspl ?? ''} dB SPL at the reference seat without the room, since gear or gains are not all recorded.`;
}
