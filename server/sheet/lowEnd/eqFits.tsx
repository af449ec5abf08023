// EQ fitted to the predicted low end: begun here, shown before and after at each seat, tried on and written.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import type { FoundFit } from '../../protocol/search.ts';
import { LiveContext, type Trials } from '../live.ts';
import { WideTable } from '../section.tsx';
import { TableHead } from '../tableHead.tsx';
import { TrialButtons } from '../trialButtons.tsx';
import type { View } from '../view.ts';
import { ResponseChart, rangeOf } from './responseChart.tsx';

/** Nothing on paper: what is not decided is no part of the setup. */
export function EqFits({ setup, show }: View): VNode | null {
  const { trials } = useContext(LiveContext);
  const devices = equalisersOf(setup);
  if (trials === null || devices.length === 0) return null;
  return (
    <>
      <h3>EQ to the predicted response</h3>
      <p class="searches">
        {devices.map((id) => (
          <FitButton key={id} id={id} trials={trials} />
        ))}
      </p>
      {trials.found.fits.map((fit) => (
        <FitView key={fit.name} fit={fit} setup={setup} trials={trials} show={show} />
      ))}
    </>
  );
}

/** Whatever has an equaliser on the way to a driver, in the order of the signal. */
function equalisersOf({ signalPaths }: Setup): readonly string[] {
  const stages = signalPaths.flatMap((path) => path.stages);
  return [
    ...new Set(
      stages.flatMap(({ device, kind, settingPath }) =>
        kind === 'eq' && settingPath !== null ? [device] : [],
      ),
    ),
  ];
}

function FitButton({ id, trials }: { readonly id: string; readonly trials: Trials }): VNode {
  const isFitting = trials.searching?.what === 'eq' && trials.searching.id === id;
  const isKnown = trials.found.fits.some(({ device }) => device === id);
  return (
    <button
      type="button"
      class="act"
      disabled={trials.searching !== null}
      onClick={() => trials.search('eq', id)}
    >
      {isFitting ? `Fitting EQ of ${id} …` : `Fit EQ of ${id}${isKnown ? ' again' : ''}`}
    </button>
  );
}

interface FitViewProps {
  readonly fit: FoundFit;
  readonly setup: Setup;
  readonly trials: Trials;
  readonly show: Show;
}

function FitView({ fit, setup, trials, show }: FitViewProps): VNode {
  const { name, bands, seats, remarks, edits } = fit;
  const shown = seats.find(({ seat }) => seat === setup.referenceSeat) ?? seats[0];
  const trial = { key: `eq ${name}`, title: `EQ of ${name}`, edits };
  return (
    <div class="eq-fit">
      <h4>{name}</h4>
      {shown === undefined ? null : <FitChart fit={fit} seat={shown} show={show} />}
      <WideTable label={`EQ of ${name}, distance from the target`} isTight={true}>
        <TableHead columns={['seat', 'before', 'after']} />
        <tbody>
          {seats.map(({ seat, before_db, after_db }) => (
            <tr key={seat}>
              <th scope="row">{seat}</th>
              <td class="number">{`${before_db.toFixed(1)} dB RMS`}</td>
              <td class="number">{`${after_db.toFixed(1)} dB RMS`}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
      {bands.length === 0 ? (
        <p>Nothing that a band would mend.</p>
      ) : (
        <>
          <ul class="dial">
            {bands.map((band) => (
              <li key={band}>{band}</li>
            ))}
          </ul>
          <TrialButtons trial={trial} trials={trials} />
        </>
      )}
      <p class="note">
        {`${remarks.join('; ')}. From a prediction: starting values until the room was measured.`}
      </p>
    </div>
  );
}

function FitChart({
  fit: { name, frequency_hz, target_db },
  seat: { seat, before_db, after_db, beforeLevel_db, afterLevel_db },
  show,
}: {
  readonly fit: FoundFit;
  readonly seat: FoundFit['seats'][number];
  readonly show: Show;
}): VNode {
  return (
    <ResponseChart
      label={`Predicted level over frequency at ${seat} without the EQ of ${name} and with it: ${before_db.toFixed(1)} dB from the target before, ${after_db.toFixed(1)} dB after`}
      frequency_hz={frequency_hz}
      curves={[
        { entry: { class: 'curve curve-best', text: 'target' }, level_db: target_db },
        { entry: { class: 'curve curve-practice', text: 'before' }, level_db: beforeLevel_db },
        { entry: { class: 'curve curve-sum', text: 'after' }, level_db: afterLevel_db },
      ]}
      range={rangeOf(frequency_hz, [beforeLevel_db, afterLevel_db, target_db])}
      schroeder_hz={null}
      show={show}
    />
  );
}
