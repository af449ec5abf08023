// Both polarities of each subwoofer side by side: the room's own answer to which one gives more bass at the reference seat.

import type { VNode } from 'preact';
import type { FieldFigures, PolarityFigures } from '../../../core/fieldFigures.ts';
import { placeOf, ToSource } from '../source.tsx';
import type { View } from '../view.ts';
import { listed } from '../words.ts';
import { ResponseChart, rangeOf } from './responseChart.tsx';

export function PolarityCharts({
  field,
  show,
}: View & { readonly field: FieldFigures }): VNode | null {
  if (field.polarity.length === 0) return null;
  return (
    <>
      <h3>Polarity of the subwoofers</h3>
      <div class="columns charts">
        {field.polarity.map((polarity) => (
          <PolarityChart
            key={`${polarity.sub} ${polarity.set}`}
            polarity={polarity}
            field={field}
            show={show}
          />
        ))}
      </div>
    </>
  );
}

function PolarityChart({
  polarity,
  field,
  show,
}: {
  readonly polarity: PolarityFigures;
  readonly field: FieldFigures;
  readonly show: View['show'];
}): VNode {
  const { sub, set, channels, overlap_hz, curve } = polarity;
  const { asSet_db, turned_db } = curve;
  const path = ['subwoofers', sub];
  return (
    <div {...placeOf(path)}>
      <h4>
        <ToSource path={path}>{set === null ? sub : `${sub}, set ${set}`}</ToSource>
      </h4>
      <ResponseChart
        label={`Predicted level over frequency with ${sub} as set and with its polarity turned, mean of ${listed(channels)}. ${verdict(polarity, show)}`}
        frequency_hz={field.frequency_hz}
        curves={[
          {
            entry: { class: 'curve curve-practice', text: 'polarity turned' },
            level_db: turned_db,
          },
          { entry: { class: 'curve curve-sum', text: 'polarity as set' }, level_db: asSet_db },
        ]}
        range={rangeOf(field.frequency_hz, [asSet_db, turned_db])}
        schroeder_hz={field.schroeder_hz}
        bands={[{ hz: overlap_hz, text: 'where subwoofer and mains share the work' }]}
        show={show}
      />
      <p>
        {verdict(polarity, show)}
        {(polarity.elsewhere ?? []).map((other) => (
          <span key={other.seat} class="note">{`${other.seat}: ${lean(other, show)}`}</span>
        ))}
        <span class="note">{`Mean power of ${listed(channels)}; the same is to be tried by ear and measurement.`}</span>
      </p>
    </div>
  );
}

function lean(
  { asSet_db, turned_db }: Pick<PolarityFigures, 'asSet_db' | 'turned_db'>,
  show: View['show'],
): string {
  const more_db = asSet_db - turned_db;
  if (Math.abs(more_db) < CLEAR_DB) return 'both give the same';
  return more_db < 0 ? `turned ${show.level(-more_db)} more` : `as set ${show.level(more_db)} more`;
}

/** Less says nothing: seats and data sheets are not that sure. */
const CLEAR_DB = 1;

function verdict(
  { asSet_db, turned_db, overlap_hz: [from_hz, to_hz] }: PolarityFigures,
  show: View['show'],
): string {
  const more_db = asSet_db - turned_db;
  const where = `from ${show.frequency(from_hz)} to ${show.frequency(to_hz)}`;
  if (Math.abs(more_db) < CLEAR_DB) return `Both polarities give the same ${where}.`;
  return more_db < 0
    ? `Turned it would give ${show.level(-more_db)} more ${where}.`
    : `As set it gives ${show.level(more_db)} more ${where}.`;
}
