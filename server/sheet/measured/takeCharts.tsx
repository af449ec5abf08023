// Each take's response: over the plan with its envelope where the two can be compared, else alone.

import type { VNode } from 'preact';
import type {
  MeasuredResponse,
  MeasuredSession,
  MeasuredTake,
} from '../../../core/measured/measuredFigures.ts';
import type { TakeComparison } from '../../../core/measured/verification.ts';
import { ENVELOPE } from '../lowEnd/channelCharts.tsx';
import { ResponseChart, rangeOf } from '../lowEnd/responseChart.tsx';
import { Fold } from '../section.tsx';
import { drawingOf, placeOf, ToSource } from '../source.tsx';
import type { View } from '../view.ts';
import { typeset } from '../words.ts';
import { microphoneText } from './takesTable.tsx';

/** So many are seen at once; the others are for who looks for them. */
const MOST_OPEN = 4;
/** Of a take alone; the plan ends at 200 Hz. */
export const HIGHEST_HZ = 20_000;
export const MEASURED = { class: 'curve curve-measured', text: 'measured' } as const;
const PLANNED = { class: 'curve curve-planned', text: 'planned' } as const;

interface SessionProps extends View {
  readonly session: MeasuredSession;
}

export function TakeCharts({ session, ...view }: SessionProps): VNode | null {
  const takes = session.takes.filter(({ response }) => response !== null);
  if (takes.length === 0) return null;
  const charts = (some: readonly MeasuredTake[]): VNode => (
    <div class="columns charts">
      {some.map((take) => (
        <TakeChart key={take.take} take={take} session={session} {...view} />
      ))}
    </div>
  );
  const rest = takes.slice(MOST_OPEN);
  return (
    <>
      {charts(takes.slice(0, MOST_OPEN))}
      {rest.length === 0 ? null : (
        <Fold
          id={`measured-${session.session}`}
          summary={`Other takes: ${rest.map(({ take }) => take).join(', ')}`}
        >
          {charts(rest)}
        </Fold>
      )}
    </>
  );
}

function TakeChart({
  take,
  session,
  setup,
  show,
}: SessionProps & { readonly take: MeasuredTake }): VNode | null {
  const { response } = take;
  if (response === null) return null;
  const compared =
    setup.verification?.takes.find(
      (one) => one.session === session.session && one.take === take.take,
    )?.response ?? null;
  const title = (
    <h4 {...placeOf(take.path)}>
      <ToSource path={take.path}>{take.take}</ToSource>
      {` at ${microphoneText(take, show)}`}
    </h4>
  );
  return (
    <div {...drawingOf(take.path)}>
      {title}
      {compared === null ? (
        <ResponseAlone name={take.take} response={response} take={take} show={show} />
      ) : (
        <Compared name={take.take} compared={compared} setup={setup} show={show} />
      )}
    </div>
  );
}

function Compared({
  name,
  compared,
  setup,
  show,
}: View & {
  readonly name: string;
  readonly compared: NonNullable<TakeComparison['response']>;
}): VNode {
  const { frequency_hz, planned_db, lower_db, upper_db, measured_db, rms_db, worst, inside } =
    compared;
  const said = `${show.level(rms_db)} RMS apart, most at ${show.frequency(worst.frequency_hz)} (${show.level(worst.off_db)})${inside === null ? '' : `; ${show.share(inside)} inside the envelope`}`;
  return (
    <>
      <ResponseChart
        label={`Level over frequency of ${name}, measured over planned: ${said}.`}
        frequency_hz={frequency_hz}
        curves={[
          { entry: PLANNED, level_db: planned_db },
          { entry: MEASURED, level_db: measured_db },
        ]}
        envelope={
          lower_db === null || upper_db === null ? null : { entry: ENVELOPE, lower_db, upper_db }
        }
        range={rangeOf(frequency_hz, [planned_db, measured_db])}
        schroeder_hz={setup.field?.schroeder_hz ?? null}
        show={show}
      />
      <p class="note">{typeset(said)}</p>
    </>
  );
}

function ResponseAlone({
  name,
  response,
  take,
  show,
}: {
  readonly name: string;
  readonly response: MeasuredResponse;
  readonly take: MeasuredTake;
  readonly show: View['show'];
}): VNode {
  return (
    <ResponseChart
      label={`Measured level over frequency of ${name}.`}
      frequency_hz={response.frequency_hz}
      curves={[{ entry: MEASURED, level_db: response.level_db }]}
      range={rangeOf(response.frequency_hz, [response.level_db], HIGHEST_HZ)}
      schroeder_hz={null}
      highest_hz={HIGHEST_HZ}
      unit={take.level?.basis === 'spl' ? 'dB SPL' : 'dB'}
      show={show}
    />
  );
}
