// An equaliser's fit: each seat before and after, cure and harm alike, the bands, what they cost, and the buttons that try and write them.

import type { VNode } from 'preact';
import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import type { FoundFit, FoundFitSeat } from '../../protocol/search.ts';
import type { Trials } from '../live.ts';
import { Fold, WideTable } from '../section.tsx';
import { TableHead } from '../tableHead.tsx';
import { TrialButtons } from '../trialButtons.tsx';
import { listed, typeset } from '../words.ts';
import { FitChart } from './fitChart.tsx';

/** So many are seen at once; the others are for who looks for them. */
const MOST_OPEN = 4;

interface FitViewProps {
  readonly fit: FoundFit;
  readonly setup: Setup;
  readonly trials: Trials;
  readonly show: Show;
}

export function FitView({ fit, setup, trials, show }: FitViewProps): VNode {
  const { name, from, summary, remarks } = fit;
  return (
    <div class="eq-fit">
      <h4>{from === null ? name : `${name}, fitted to ${takesText(from.takes)}`}</h4>
      <p>{typeset(summary)}</p>
      <FitCharts fit={fit} show={show} />
      <SeatsTable fit={fit} referenceSeat={setup.referenceSeat} />
      <Bands fit={fit} trials={trials} />
      <ul class="remarks">
        {remarks.map((remark) => (
          <li key={remark} class="note">
            {typeset(remark)}
          </li>
        ))}
      </ul>
      <p class="note">
        {from === null
          ? 'From a prediction: starting values until the room was measured.'
          : 'What the bands do is computed on what was measured: dial them in, then measure again.'}
      </p>
    </div>
  );
}

function takesText(takes: readonly string[]): string {
  return takes.length <= 4 ? listed(takes) : `${takes.length} takes`;
}

function FitCharts({ fit, show }: Pick<FitViewProps, 'fit' | 'show'>): VNode {
  const charts = (some: readonly FoundFitSeat[]): VNode => (
    <div class="columns charts">
      {some.map((seat) => (
        <FitChart key={seat.seat} fit={fit} seat={seat} show={show} />
      ))}
    </div>
  );
  const rest = fit.seats.slice(MOST_OPEN);
  return (
    <>
      {charts(fit.seats.slice(0, MOST_OPEN))}
      {rest.length === 0 ? null : (
        <Fold
          id={`eq-${fit.name}-${fit.from?.session ?? 'predicted'}`}
          summary={`Other seats: ${rest.map(({ seat }) => seat).join(', ')}`}
        >
          {charts(rest)}
        </Fold>
      )}
    </>
  );
}

function SeatsTable({
  fit: { name, seats },
  referenceSeat,
}: Pick<FitViewProps, 'fit'> & { readonly referenceSeat: string | null }): VNode {
  return (
    <WideTable label={`EQ of ${name}, distance from the target`} isTight={true}>
      <TableHead
        columns={['seat', 'heard', { figures: 'before' }, { figures: 'after' }, 'so that it is']}
      />
      <tbody>
        {seats.map(({ seat, isFitted, from, before_db, after_db }) => (
          <tr key={seat}>
            <th scope="row">
              {seat}
              {seat === referenceSeat ? <span class="note">the reference seat</span> : null}
              {isFitted ? null : <span class="note">not fitted, only checked</span>}
            </th>
            <td>{from === 'measurement' ? 'measured' : 'predicted'}</td>
            <td class="number">{`${before_db.toFixed(1)} dB RMS`}</td>
            <td class="number">{`${after_db.toFixed(1)} dB RMS`}</td>
            <Change by_db={after_db - before_db} />
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}

/** Less would be rounded away in the table. */
const SEEN_DB = 0.05;

function Change({ by_db }: { readonly by_db: number }): VNode {
  if (Math.abs(by_db) < SEEN_DB) return <td>as before</td>;
  const size = `${Math.abs(by_db).toFixed(1)} dB`;
  return by_db < 0 ? (
    <td>{`${size} nearer`}</td>
  ) : (
    <td>
      <strong class="worse">{`${size} further off`}</strong>
    </td>
  );
}

function Bands({ fit, trials }: Pick<FitViewProps, 'fit' | 'trials'>): VNode {
  const { name, bands, edits, isWritten, from } = fit;
  if (bands.length === 0) return <p>Nothing that a band would mend.</p>;
  const of = from === null ? '' : `, from takes of ${from.session}`;
  const trial = {
    key: `eq ${name} ${from?.session ?? ''}`,
    title: `EQ of ${name}${of}`,
    edits,
  };
  return (
    <>
      <ul class="dial">
        {bands.map((band) => (
          <li key={band}>{typeset(band)}</li>
        ))}
      </ul>
      {isWritten ? (
        <p>These bands are in the file.</p>
      ) : (
        <TrialButtons trial={trial} trials={trials} />
      )}
    </>
  );
}
