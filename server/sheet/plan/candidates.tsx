// Better places: searches begun from the plan, and their candidates in a list beside the room as it stands, to be tried on.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { FoundPlaces, PlaceFigures, Wanted } from '../../protocol/search.ts';
import { LiveContext, type Trials } from '../live.ts';
import { SearchButton } from '../searchButton.tsx';
import { WideTable } from '../section.tsx';
import { TableHead } from '../tableHead.tsx';
import { TrialButtons } from '../trialButtons.tsx';
import type { View } from '../view.ts';
import { listed } from '../words.ts';
import { candidatesOf, levelText, type NumberedCandidate } from './candidateWords.ts';

/** Nothing on paper: what is not decided is no part of the setup. */
export function Candidates({ setup, show }: View): VNode | null {
  const { trials } = useContext(LiveContext);
  const searches = searchesIn(setup);
  if (trials === null || searches.length === 0) return null;
  return (
    <div class="candidates-part">
      <h3>Better places</h3>
      <p class="searches">
        {searches.map((search) => (
          <PlacesButton key={search.name} {...search} trials={trials} />
        ))}
      </p>
      {trials.found.places.map((of) => (
        <FoundTable key={`${of.what} ${of.name}`} of={of} trials={trials} show={show} />
      ))}
    </div>
  );
}

interface Search {
  readonly what: Exclude<Wanted['what'], 'eq'>;
  readonly id: string;
  readonly name: string;
}

/** Each subwoofer; the main pair and the reference seat where both are there. */
function searchesIn({ room, referenceSeat }: Setup): readonly Search[] {
  const { speakers, subwoofers, seats, space } = room;
  if (space.shape === null || seats.every(({ at }) => at === null)) return [];
  const isThere = (label: string) =>
    speakers.some(({ channel, at }) => channel === label && at !== null);
  return [
    ...subwoofers.map(({ id }): Search => ({ what: 'places', id, name: id })),
    ...(referenceSeat !== null && isThere('L') && isThere('R')
      ? ([
          { what: 'mains', id: 'mains', name: 'main pair' },
          { what: 'seat', id: referenceSeat, name: referenceSeat },
        ] as const)
      : []),
  ];
}

function PlacesButton({ what, id, name, trials }: Search & { readonly trials: Trials }): VNode {
  const isKnown = trials.found.places.some((of) => of.name === name);
  return (
    <SearchButton
      wanted={{ what, id }}
      begin={`Find places for ${name}${isKnown ? ' again' : ''}`}
      running={`Searching places for ${name}`}
      trials={trials}
    />
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

interface FoundTableProps {
  readonly of: FoundPlaces;
  readonly trials: Trials;
  readonly show: Show;
}

function FoundTable({ of, trials, show }: FoundTableProps): VNode {
  const candidates = candidatesOf({ places: [of], fits: [] });
  if (candidates.length === 0)
    return <p class="missing">{of.notes[0] ?? `No place found for ${of.name}.`}</p>;
  const isSub = of.what === 'subwoofer';
  const settings = isSub
    ? 'each with the settings that belong to it'
    : 'settings as they are: delays follow';
  return (
    <>
      <WideTable label={`Candidates for ${of.name}`} isTight={true}>
        <TableHead
          columns={[
            of.name,
            'try on, or keep',
            'left, front',
            'flatness',
            ...(of.seatCount < 2 ? [] : ['seat spread']),
            ...(isSub ? ['level', '3 dB change after', 'with'] : []),
          ]}
        />
        <tbody>
          {of.current === null ? null : (
            <tr>
              <th scope="row">as it stands</th>
              <td />
              <td>{standingText(of, trials, show)}</td>
              <Figures figures={of.current} of={of} show={show} />
              {isSub ? <td /> : null}
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
        {`By the predicted low end, ${settings}. Measure before anything is screwed down. ${of.notes.join('. ')}`}
      </p>
    </>
  );
}

function CandidateRow({
  candidate: { of, number, place, trial },
  trials,
  show,
}: {
  readonly candidate: NumberedCandidate;
  readonly trials: Trials;
  readonly show: Show;
}): VNode {
  const best = place.bestIn.map((one) => BEST.get(one) ?? one);
  const isTried = trials.triedOn?.key === trial.key;
  return (
    <tr class={isTried ? 'candidate-row candidate-tried' : 'candidate-row'}>
      <th scope="row">
        {number}
        {place.isMeasured ? <span class="note">measured</span> : null}
        {best.length === 0 ? null : <span class="note">{`best ${listed(best)}`}</span>}
      </th>
      <td>
        <TrialButtons trial={trial} trials={trials} />
      </td>
      <td>{placeText(place.at, place.otherAt, show)}</td>
      <Figures figures={place} of={of} show={show} />
      {of.what === 'subwoofer' ? <td>{place.settings ?? ''}</td> : null}
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
  const radius_m = figures.forgiveness_m;
  return (
    <>
      <td class="number">{`${figures.flatness_db.toFixed(1)} dB`}</td>
      {of.seatCount < 2 ? null : <td class="number">{`${figures.spread_db.toFixed(1)} dB`}</td>}
      {of.what === 'subwoofer' ? (
        <>
          <td class="number">{levelText(figures, of.current === figures ? null : of.current)}</td>
          <td class="number">{radius_m === null ? 'beyond 1.5 m' : show.smallLength(radius_m)}</td>
        </>
      ) : null}
    </>
  );
}

function standingText({ name }: FoundPlaces, { standing }: Trials, show: Show): string {
  const at = standing.find(({ id }) => id === name)?.at;
  return at === undefined ? '' : placeText(at, null, show);
}

/** "1.30 m, 0.90 m"; of a pair both. */
function placeText(at: Point, otherAt: Point | null, show: Show): string {
  const one = `${show.length(at.x_m)}, ${show.length(at.y_m)}`;
  return otherAt === null ? one : `${one}; ${placeText(otherAt, null, show)}`;
}
