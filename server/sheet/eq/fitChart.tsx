// The response at one seat before an equaliser's fit and after it, over the target, with the nulls that are left alone.

import type { VNode } from 'preact';
import type { Show } from '../../../core/show.ts';
import type { FoundFit, FoundFitSeat } from '../../protocol/search.ts';
import { ResponseChart, rangeOf } from '../lowEnd/responseChart.tsx';
import { MEASURED as MEASURED_CURVE } from '../measured/takeCharts.tsx';

const TARGET = { class: 'curve curve-best', text: 'target' } as const;
const PREDICTED = { class: 'curve curve-practice', text: 'before' } as const;
const MEASURED = { ...MEASURED_CURVE, text: 'before, measured' } as const;
/** Reckoned on what was measured: it must not look like a measurement. */
const AFTER = { class: 'curve curve-after', text: 'after, computed' } as const;

const LEFT = { text: 'null, left alone' } as const;
const NULL = { text: 'null' } as const;

interface FitChartProps {
  readonly fit: FoundFit;
  readonly seat: FoundFitSeat;
  readonly show: Show;
}

export function FitChart({ fit: { name, frequency_hz }, seat: at, show }: FitChartProps): VNode {
  const { seat, isFitted, from, target_db, beforeLevel_db, afterLevel_db, nulls_hz } = at;
  const shaded = (isFitted ? LEFT : NULL).text;
  const nulls = nulls_hz.map(
    ([from_hz, to_hz]) =>
      `${show.frequency(Math.round(from_hz))} to ${show.frequency(Math.round(to_hz))}`,
  );
  const left =
    nulls.length === 0
      ? ''
      : ` ${isFitted ? 'Left alone, as nulls' : 'Nulls'}: ${nulls.join(', ')}.`;
  const said = `${at.before_db.toFixed(1)} dB from the target before, ${at.after_db.toFixed(1)} dB after`;
  return (
    <div>
      <h5>{`at ${seat}`}</h5>
      <ResponseChart
        label={`${from === 'measurement' ? 'Measured' : 'Predicted'} level over frequency at ${seat} without the EQ of ${name} and with it: ${said}.${left}`}
        frequency_hz={frequency_hz}
        curves={[
          { entry: TARGET, level_db: target_db },
          { entry: from === 'measurement' ? MEASURED : PREDICTED, level_db: beforeLevel_db },
          { entry: AFTER, level_db: afterLevel_db },
        ]}
        range={rangeOf(frequency_hz, [beforeLevel_db, afterLevel_db, target_db])}
        schroeder_hz={null}
        bands={nulls_hz.map((hz, index) => ({
          hz,
          text: `${shaded}: ${nulls[index] ?? ''}`,
        }))}
        {...(nulls.length === 0 ? {} : { shaded })}
        show={show}
      />
    </div>
  );
}
