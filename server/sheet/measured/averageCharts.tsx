// Averages over several takes of a session, each as one curve, or why there is none.

import type { VNode } from 'preact';
import type { MeasuredAverage, MeasuredSession } from '../../../core/measured/measuredFigures.ts';
import { ResponseChart, rangeOf } from '../lowEnd/responseChart.tsx';
import { Said } from '../said.tsx';
import { placeOf, ToSource } from '../source.tsx';
import type { View } from '../view.ts';
import { listed } from '../words.ts';
import { HIGHEST_HZ, MEASURED } from './takeCharts.tsx';

const BY = {
  power: 'mean of squared pressures',
  level: 'mean of decibels',
  vector: 'mean of pressures with their phases',
} as const;

export function AverageCharts({
  session,
  show,
}: View & { readonly session: MeasuredSession }): VNode | null {
  if (session.averages.length === 0) return null;
  const isSpl = (average: MeasuredAverage): boolean =>
    session.takes.some(({ take, level }) => average.takes.includes(take) && level?.basis === 'spl');
  return (
    <>
      <h3>Averages</h3>
      <div class="columns charts">
        {session.averages.map((one) => (
          <div key={one.average}>
            <h4 {...placeOf(one.path)}>
              <ToSource path={one.path}>{one.average}</ToSource>
              {`: ${BY[one.by]} of ${listed(one.takes)}`}
            </h4>
            {one.response === null ? (
              <p class="missing">
                <Said text={(one.refusals ?? []).join('. ') || 'Being read …'} />
              </p>
            ) : (
              <ResponseChart
                label={`Measured level over frequency of the average ${one.average}, ${BY[one.by]}.`}
                frequency_hz={one.response.frequency_hz}
                curves={[{ entry: MEASURED, level_db: one.response.level_db }]}
                range={rangeOf(one.response.frequency_hz, [one.response.level_db], HIGHEST_HZ)}
                schroeder_hz={null}
                highest_hz={HIGHEST_HZ}
                unit={isSpl(one) ? 'dB SPL' : 'dB'}
                show={show}
              />
            )}
          </div>
        ))}
      </div>
    </>
  );
}
