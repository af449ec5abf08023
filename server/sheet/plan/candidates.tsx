// Places for a subwoofer: the search begun from the plan, and its candidates in a list beside the room as it stands, to be tried on.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Show } from '../../../core/show.ts';
import type { FoundPlaces, PlaceFigures } from '../../protocol/search.ts';
import { LiveContext, type Trials } from '../live.ts';
import { WideTable } from '../section.tsx';
import { TrialButtons } from '../trialButtons.tsx';
import type { View } from '../view.ts';
import { listed } from '../words.ts';
import { candidatesOf, levelText, type NumberedCandidate } from './candidateWords.ts';

/** Nothing on paper: what is not decided is no part of the setup. */
export function Candidates({ setup, show }: View): VNode | null {
  const { trials } = useContext(LiveContext);
  const { subwoofers, seats, space } = setup.room;
  const canSearch =
    0 < subwoofers.length && space.shape !== null && seats.some(({ at }) => at !== null);
  if (trials === null || !canSearch) return null;
  return (
    <div class="candidates-part">
      <h3>Places for a subwoofer</h3>
      <p class="searches">
        {subwoofers.map(({ id }) => (
          <SearchButton key={id} id={id} trials={trials} />
        ))}
      </p>
      {trials.found.places.map((of) => (
        <FoundTable key={of.subwoofer} of={of} trials={trials} show={show} />
      ))}
    </div>
  );
}

/** In what a candidate may be the best. */
const BEST: ReadonlyMap<string, string> = new Map([
  ['cost', 'overall'],
  ['flatness', 'in flatness'],
  ['spread', 'in seat spread'],
  ['output', 'in level'],
  ['forgiveness', 'in forgiveness'],
]);

function SearchButton({ id, trials }: { readonly id: string; readonly trials: Trials }): VNode {
  const isSearching = trials.searching?.what === 'places' && trials.searching.id === id;
  const isKnown = trials.found.places.some(({ subwoofer }) => subwoofer === id);
  return (
    <button
      type="button"
      class="apply"
      disabled={trials.searching !== null}
      onClick={() => trials.search('places', id)}
    >
      {isSearching
        ? `Searching places for ${id} …`
        : `Find places for ${id}${isKnown ? ' again' : ''}`}
    </button>
  );
}

interface FoundTableProps {
  readonly of: FoundPlaces;
  readonly trials: Trials;
  readonly show: Show;
}

function FoundTable({ of, trials, show }: FoundTableProps): VNode {
  const candidates = candidatesOf({ places: [of], fits: [] });
  if (candidates.length === 0)
    return <p class="missing">{of.notes[0] ?? `No place found for ${of.subwoofer}.`}</p>;
  return (
    <>
      <WideTable label={`Candidates for ${of.subwoofer}`} isTight={true}>
        <thead>
          <tr>
            <th scope="col">{of.subwoofer}</th>
            <th scope="col">try on, or keep</th>
            <th scope="col">left, front</th>
            <th scope="col">flatness</th>
            {of.seatCount < 2 ? null : <th scope="col">seat spread</th>}
            <th scope="col">level</th>
            <th scope="col">3 dB change after</th>
            <th scope="col">with</th>
          </tr>
        </thead>
        <tbody>
          {of.current === null ? null : (
            <tr>
              <th scope="row">as it stands</th>
              <td />
              <td>{standingText(of, trials, show)}</td>
              <Figures figures={of.current} of={of} show={show} />
              <td />
            </tr>
          )}
          {candidates.map((candidate) => (
            <CandidateRow
              key={candidate.trial.key}
              candidate={candidate}
              trials={trials}
              show={show}
            />
          ))}
        </tbody>
      </WideTable>
      <p class="note">
        By the predicted low end, each with the settings that belong to it. Measure before anything
        is screwed down. {of.notes.join('. ')}
      </p>
    </>
  );
}

function CandidateRow({
  candidate,
  trials,
  show,
}: {
  readonly candidate: NumberedCandidate;
  readonly trials: Trials;
  readonly show: Show;
}): VNode {
  const { of, number, place, trial } = candidate;
  const best =
    place.bestIn.length === 0
      ? ''
      : `best ${listed(place.bestIn.map((one) => BEST.get(one) ?? one))}`;
  return (
    <tr
      class={trials.triedOn?.key === trial.key ? 'candidate-row candidate-tried' : 'candidate-row'}
    >
      <th scope="row">
        {number}
        {place.isMeasured ? <span class="standing-measured">measured</span> : null}
        {best === '' ? null : <span class="note">{best}</span>}
      </th>
      <td>
        <TrialButtons trial={trial} trials={trials} />
      </td>
      <td>{`${show.length(place.at.x_m)}, ${show.length(place.at.y_m)}`}</td>
      <Figures figures={place} of={of} show={show} />
      <td>{place.settings ?? ''}</td>
    </tr>
  );
}

function Figures({
  figures,
  of,
  show,
}: {
  readonly figures: PlaceFigures;
  readonly of: FoundPlaces;
  readonly show: Show;
}): VNode {
  return (
    <>
      <td class="number">{`${figures.flatness_db.toFixed(1)} dB`}</td>
      {of.seatCount < 2 ? null : <td class="number">{`${figures.spread_db.toFixed(1)} dB`}</td>}
      <td class="number">{levelText(figures, of.current === figures ? null : of.current)}</td>
      <td class="number">
        {figures.forgiveness_m === null ? 'beyond 1.5 m' : show.smallLength(figures.forgiveness_m)}
      </td>
    </>
  );
}

function standingText({ subwoofer }: FoundPlaces, { standing }: Trials, show: Show): string {
  const at = standing.find(({ id }) => id === subwoofer)?.at;
  return at === undefined ? '' : `${show.length(at.x_m)}, ${show.length(at.y_m)}`;
}
