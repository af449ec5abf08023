// Section "Crossover": what main and subwoofer add up to, as dialled in, as practice starts, and as the sum says.

import type { VNode } from 'preact';
import type { CrossoverFigures, CrossoverOutcome } from '../../core/setup.ts';
import { CrossoverCurves } from './crossoverCurves.tsx';
import { InRoom } from './crossoverInRoom.tsx';
import { Fold, Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import { phaseText, slopeText } from './units.ts';
import type { View } from './view.ts';
import { capitalised, listed, shown, signed, typeset } from './words.ts';

export function CrossoverPart({ setup, show }: View): VNode | null {
  if (setup.crossovers.length === 0 && setup.room.subwoofers.length === 0) return null;
  return (
    <Section
      id="crossover"
      title="Crossover"
      brief="Sums of filters and natural roll-offs at the reference seat, without the room. Predicted: data-sheet phase is a guess until measured."
    >
      {setup.crossovers.length === 0 ? (
        <p class="missing">
          No crossover was found between the mains and the subwoofers: the notes below say why.
        </p>
      ) : null}
      {setup.crossovers.map((crossover) => (
        <OneCrossover key={crossoverKey(crossover)} crossover={crossover} view={{ setup, show }} />
      ))}
    </Section>
  );
}

function OneCrossover({
  crossover,
  view,
}: {
  readonly crossover: CrossoverFigures;
  readonly view: View;
}): VNode {
  const { show } = view;
  const { device, set, path, mains, subs, mainsMinus6db_hz, current, practice, ranked } = crossover;
  const main = current ?? practice ?? ranked[0] ?? null;
  return (
    <div class="crossover" {...placeOf(path)}>
      <h3>
        <ToSource path={path}>
          {device}
          {set === null ? '' : `, set ${set}`}
        </ToSource>
        {`: ${listed(mains)} with ${listed(subs)}`}
      </h3>
      <p>
        {mainsMinus6db_hz === null
          ? 'The mains’ own −6 dB point is not recorded.'
          : `The mains are −6 dB at ${show.frequency(mainsMinus6db_hz)} by themselves.`}
        {crossover.bypassed ? ' The crossover is bypassed.' : ''}
      </p>
      {main === null ? (
        <p class="missing">No sum can be drawn: the notes below say why.</p>
      ) : (
        <>
          <CrossoverCurves crossover={crossover} drawn={main} show={show} />
          <OutcomeTable crossover={crossover} view={view} />
          <InRoom crossover={crossover} view={view} />
          <Reasons crossover={crossover} />
        </>
      )}
      {crossover.caveat === null ? null : <p class="caveat">{typeset(crossover.caveat)}</p>}
    </div>
  );
}

/** One device may filter several groups of mains. */
function crossoverKey({ device, set, mains }: CrossoverFigures): string {
  return [device, set, mains[0]].filter(Boolean).join('-');
}

interface NamedOutcome {
  readonly name: string;
  readonly outcome: CrossoverOutcome;
}

function namedOutcomes({ current, practice, ranked }: CrossoverFigures): readonly NamedOutcome[] {
  return [
    ...(current === null ? [] : [{ name: 'as dialled in', outcome: current }]),
    ...(practice === null ? [] : [{ name: 'start that practice names', outcome: practice }]),
    ...ranked.map((outcome, index) => ({
      name: RANKS[index] ?? `best sum, ${index + 1}th`,
      outcome,
    })),
  ];
}

const RANKS: readonly string[] = [
  'best sum',
  'second best',
  'third best',
  'fourth best',
  'fifth best',
];

/** The trade's names of the filters, with their inventors' capitals. */
function familyName(family: CrossoverOutcome['filter']['family']): string {
  return family === 'linkwitz_riley' ? 'Linkwitz–Riley' : capitalised(family);
}

function OutcomeTable({
  crossover,
  view: { show },
}: {
  readonly crossover: CrossoverFigures;
  readonly view: View;
}): VNode {
  return (
    <WideTable label="Crossover settings side by side" isTight>
      <TableHead
        columns={[
          'which',
          { figures: 'frequency' },
          'slope',
          'polarity',
          { figures: 'subwoofer later by' },
          { figures: 'ripple' },
          { figures: 'deepest' },
          { figures: 'highest' },
          { figures: 'phase at crossover' },
          { figures: 'worst phase' },
        ]}
      />
      <tbody>
        {namedOutcomes(crossover).map(({ name, outcome }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td class="number">{show.frequency(outcome.filter.frequency_hz)}</td>
            <td>
              {slopeText(outcome.filter.slope_db_oct)}
              <span class="note">{familyName(outcome.filter.family)}</span>
            </td>
            <td>{outcome.polarity}</td>
            <td class="number">{shown(outcome.subDelay_s, show.time)}</td>
            <td class="number">{show.level(outcome.ripple_db)}</td>
            <td class="number">
              <Extreme of={outcome.dip} show={show} />
            </td>
            <td class="number">
              <Extreme of={outcome.bump} show={show} />
            </td>
            <td class="number">{typeset(phaseText(outcome.phaseAtCrossover_rad))}</td>
            <td class="number">{typeset(phaseText(outcome.worstPhase_rad))}</td>
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}

function Extreme({
  of: { level_db, frequency_hz },
  show,
}: {
  readonly of: CrossoverOutcome['dip'];
  readonly show: View['show'];
}): VNode {
  return (
    <>
      {signed(level_db, show.level(level_db))}
      <span class="note">{`at ${show.frequency(frequency_hz)}`}</span>
    </>
  );
}

/** The reasons of what is dialled in, of the start and of the best; those of the next best on request. */
function Reasons({ crossover }: { readonly crossover: CrossoverFigures }): VNode | null {
  const told = namedOutcomes(crossover).filter(({ outcome }) => 0 < outcome.reasons.length);
  if (told.length === 0) return null;
  const [best, ...nextBest] = crossover.ranked;
  const later = told.filter(({ outcome }) => nextBest.includes(outcome));
  return (
    <>
      <ReasonList
        told={told.filter(
          ({ outcome }) => outcome === best || !later.some((one) => one.outcome === outcome),
        )}
      />
      {later.length === 0 ? null : (
        <Fold
          isLong
          id={`crossover-${crossoverKey(crossover)}-next`}
          summary="Reasons of the next best"
        >
          <ReasonList told={later} />
        </Fold>
      )}
    </>
  );
}

function ReasonList({ told }: { readonly told: readonly NamedOutcome[] }): VNode {
  return (
    <dl class="reasons">
      {told.map(({ name, outcome }) => (
        <div key={name}>
          <dt>{name}</dt>
          {outcome.reasons.map((reason) => (
            <dd key={reason}>{typeset(reason)}</dd>
          ))}
        </div>
      ))}
    </dl>
  );
}
