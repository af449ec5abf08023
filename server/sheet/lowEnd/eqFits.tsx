// EQ fitted to the predicted low end: begun here, shown before and after at each seat, tried on and written.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Setup } from '../../../core/setup.ts';
import { FitView } from '../eq/fitView.tsx';
import { LiveContext, type Trials } from '../live.ts';
import { SearchButton } from '../searchButton.tsx';
import type { View } from '../view.ts';

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
      {trials.found.fits
        .filter(({ from }) => from === null)
        .map((fit) => (
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
  const isKnown = trials.found.fits.some(({ device, from }) => device === id && from === null);
  return (
    <SearchButton
      wanted={{ what: 'eq', id }}
      begin={`Fit EQ of ${id}${isKnown ? ' again' : ''}`}
      running={`Fitting EQ of ${id}`}
      trials={trials}
    />
  );
}
