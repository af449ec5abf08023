// EQ fitted to what a session's takes show: begun here, shown before and after at every seat that was measured, tried on and written.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import { type DeviceToFit, devicesToFit } from '../../../core/equaliser/measuredResponses.ts';
import type { MeasuredSession } from '../../../core/measured/measuredFigures.ts';
import type { Wanted } from '../../protocol/search.ts';
import { FitView } from '../eq/fitView.tsx';
import { LiveContext, type Trials } from '../live.ts';
import { SearchButton } from '../searchButton.tsx';
import type { View } from '../view.ts';

/** Nothing on paper: what is not decided is no part of the setup. */
export function EqFromTakes({
  session: { session },
  setup,
  show,
}: View & { readonly session: MeasuredSession }): VNode | null {
  const { trials } = useContext(LiveContext);
  const devices = devicesToFit(setup, session);
  if (trials === null || devices.length === 0 || setup.field === null) return null;
  const fits = trials.found.fits.filter(({ from }) => from?.session === session);
  return (
    <>
      <h3>EQ to these takes</h3>
      <p class="searches">
        {devices.flatMap((device) =>
          wantedOf(session, device, setup.referenceSeat).map((wanted) => (
            <FitButton key={wanted.seats?.join() ?? ''} wanted={wanted} trials={trials} />
          )),
        )}
      </p>
      {fits.map((fit) => (
        <FitView key={fit.name} fit={fit} setup={setup} trials={trials} show={show} />
      ))}
    </>
  );
}

/** To all seats that were measured; where there are several, to the reference seat alone too. */
function wantedOf(
  session: string,
  { device, seats }: DeviceToFit,
  referenceSeat: string | null,
): readonly Wanted[] {
  const all: Wanted = { what: 'eq', id: device, session };
  return 1 < seats.length && referenceSeat !== null && seats.includes(referenceSeat)
    ? [all, { ...all, seats: [referenceSeat] }]
    : [all];
}

function FitButton({
  wanted,
  trials,
}: {
  readonly wanted: Wanted;
  readonly trials: Trials;
}): VNode | null {
  const { id, session, seats } = wanted;
  const known = trials.found.fits.find(
    ({ device, from }) => device === id && from?.session === session,
  );
  // The takes are of the room without these bands: fitted again, they would be taken off twice.
  if (known?.isWritten === true) return null;
  const to = seats === undefined ? '' : ` to ${seats.join(', ')} alone`;
  return (
    <SearchButton
      wanted={wanted}
      begin={`Fit EQ of ${id}${to}`}
      running={`Fitting EQ of ${id}${to}`}
      trials={trials}
    />
  );
}
