// Section "Room modes": where the room itself resonates below 200 Hz, who drives each mode and who hears it.

import type { VNode } from 'preact';
import type { FieldMode } from '../../core/fieldFigures.ts';
import type { ModeFigures, SpaceFigures } from '../../core/setup.ts';
import { Facts } from './facts.tsx';
import { boxStems, fieldStems, ModeStems } from './modeStems.tsx';
import { Fold, Section, WideTable } from './section.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { MISSING, shown } from './words.ts';

export function ModesPart({ setup, show }: View): VNode {
  const { space, field } = setup;
  const modes = space?.modes ?? null;
  const found = field?.modes ?? null;
  return (
    <Section
      id="modes"
      title="Room modes"
      brief={
        modes !== null
          ? 'Computed for rigid walls: in light rooms expect modes several percent off, and levels 3 to 6 dB off.'
          : found !== null
            ? 'By finite elements, for rigid walls: in light rooms expect modes several percent off.'
            : ''
      }
    >
      {space !== null && modes !== null ? (
        <BoxModes space={space} modes={modes} view={{ setup, show }} />
      ) : found !== null ? (
        <FoundModes modes={found} view={{ setup, show }} />
      ) : field === undefined && space !== null ? (
        <p class="missing">Being worked out …</p>
      ) : (
        <p class="missing">Modes are not computed for this room: the notes below say why.</p>
      )}
    </Section>
  );
}

function BoxModes({
  space,
  modes,
  view,
}: {
  readonly space: SpaceFigures;
  readonly modes: readonly ModeFigures[];
  readonly view: View;
}): VNode {
  return (
    <>
      <ModeStems {...view} modes={boxStems(modes, view)} schroeder_hz={space.schroeder_hz} />
      <ModeFacts space={space} view={view} />
      <Fold id="modes-bonello" summary="Modes by one-third-octave band (Bonello’s criterion)">
        <Bonello space={space} view={view} />
      </Fold>
      <Fold isLong id="modes-table" summary={`All ${modes.length} modes`}>
        <ModeTable modes={modes.map(boxRow)} view={view} />
      </Fold>
    </>
  );
}

/** Rooms that are no box: they have no orders and kinds, and no proportions to judge. */
function FoundModes({
  modes,
  view,
}: {
  readonly modes: readonly FieldMode[];
  readonly view: View;
}): VNode {
  return (
    <>
      <ModeStems
        {...view}
        modes={fieldStems(modes, view)}
        schroeder_hz={view.setup.space?.schroeder_hz ?? null}
      />
      <Fold isLong id="modes-table" summary={`All ${modes.length} modes`}>
        <ModeTable modes={modes.map(foundRow)} view={view} />
      </Fold>
    </>
  );
}

/** One mode in the table: names stand for what only boxes have. */
interface ModeRow extends FieldMode {
  readonly name: string;
  readonly kind: string;
  /** A strength in words. */
  readonly strength: (strength: number, show: View['show']) => string;
}

function boxRow(mode: ModeFigures): ModeRow {
  const strength = (value: number, show: View['show']): string => show.share(value);
  return { ...mode, name: mode.order.join(', '), strength };
}

/** 1 is the mode's mean over the room: many a corner has more. */
function foundRow(mode: FieldMode, index: number): ModeRow {
  const strength = (value: number): string => value.toFixed(2);
  return { ...mode, name: String(index + 1), kind: 'whole room', strength };
}

function ModeFacts({
  space,
  view: { show },
}: {
  readonly space: SpaceFigures;
  readonly view: View;
}): VNode {
  const { proportions, modeCount } = space;
  const path = ['space', 'size'];
  return (
    <Facts
      facts={[
        {
          name: 'Schroeder frequency',
          value: shown(space.schroeder_hz, show.frequency),
          path: ['space', 'decay_time'],
          note: 'below it single modes rule, above it statistics',
        },
        {
          name: 'Count',
          value: modeCount === null ? MISSING : String(modeCount.exact),
          path,
          note:
            modeCount === null
              ? ''
              : `to ${show.frequency(modeCount.limit_hz)}; the formula says ${modeCount.formula.toFixed(0)}`,
        },
        {
          name: 'Coincidences',
          value: String(space.coincidences.length),
          path,
          note: firstOf(space.coincidences.map(({ frequency_hz }) => show.frequency(frequency_hz))),
        },
        {
          name: 'Proportions',
          value:
            proportions === null
              ? MISSING
              : proportions.ratio.map((side) => side.toFixed(2)).join(' : '),
          path,
          note: proportions === null ? '' : proportionsNote(proportions),
        },
      ]}
    />
  );
}

/** The lowest ones matter most: the rest is counted. */
function firstOf(frequencies: readonly string[]): string {
  const told = [...new Set(frequencies)];
  const rest = told.length - 5;
  return `${told.slice(0, 5).join(', ')}${0 < rest ? ` and ${rest} more above` : ''}`;
}

function proportionsNote(proportions: NonNullable<SpaceFigures['proportions']>): string {
  const { walker, nearIntegers, nearestNamed } = proportions;
  return [
    walker.passes ? 'within the limits of EBU Tech 3276' : 'outside the limits of EBU Tech 3276',
    ...nearIntegers.map(
      ({ sides, ratio }) => `${sides} is near ${Math.round(ratio)} (${ratio.toFixed(2)})`,
    ),
    ...(nearestNamed === null
      ? []
      : [
          `nearest named ratio: ${nearestNamed.name}, ${(nearestNamed.off * 100).toFixed(0)} % off`,
        ]),
  ].join('; ');
}

function Bonello({
  space,
  view: { show },
}: {
  readonly space: SpaceFigures;
  readonly view: View;
}): VNode {
  const { bonello } = space;
  if (bonello === null) return <p class="missing">Not computed.</p>;
  return (
    <>
      <p>
        {bonello.risesThroughout
          ? 'No one-third-octave band holds fewer modes than the one below it.'
          : 'Some one-third-octave bands hold fewer modes than the one below.'}{' '}
        {bonello.coincidencesCovered
          ? 'Coincident modes lie in bands with at least five.'
          : 'Coincident modes lie in bands with fewer than five.'}
      </p>
      <WideTable label="Modes by one-third-octave band">
        <TableHead
          columns={[
            { figures: 'band' },
            { figures: 'modes' },
            'against the band below',
            'coincident modes',
          ]}
        />
        <tbody>
          {bonello.bands.map(({ frequency_hz, count, falls, coincident }) => (
            <tr key={frequency_hz}>
              <th scope="row" class="number">
                {show.frequency(frequency_hz)}
              </th>
              <td class="number">{count}</td>
              <td>{falls ? 'falls' : 'holds or rises'}</td>
              <td>{coincident ? 'yes' : 'none'}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </>
  );
}

function ModeTable({
  modes,
  view: { setup, show },
}: {
  readonly modes: readonly ModeRow[];
  readonly view: View;
}): VNode {
  const isBox = modes[0]?.kind !== 'whole room';
  return (
    <WideTable label="All modes to 200 Hz">
      <TableHead
        columns={[
          { figures: 'frequency' },
          isBox ? 'order x, y, z' : 'number',
          'kind',
          { figures: 'bandwidth' },
          { figures: 'decay' },
          ...setup.room.subwoofers.map(({ id }) => ({ figures: `${id} drives` })),
          ...setup.seats.map(({ id }) => ({ figures: `${id} hears` })),
        ]}
      />
      <tbody>
        {modes.map((mode) => (
          <tr key={mode.name}>
            <th scope="row" class="number">
              {show.frequency(mode.frequency_hz)}
            </th>
            <td>{mode.name}</td>
            <td>{mode.kind}</td>
            <td class="number">{shown(mode.bandwidth_hz, show.frequency)}</td>
            <td class="number">{shown(mode.decayTime_s, show.decayTime)}</td>
            {setup.room.subwoofers.map(({ id }) => (
              <td key={id} class="number">
                {shown(
                  mode.drivenBy.find(({ source }) => source === id)?.strength ?? null,
                  (value) => mode.strength(value, show),
                )}
              </td>
            ))}
            {setup.seats.map(({ id }) => (
              <td key={id} class="number">
                {shown(mode.heardAt.find(({ seat }) => seat === id)?.strength ?? null, (value) =>
                  mode.strength(value, show),
                )}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}
