// Section "Room": plan and side view to scale, with the table of every position and the figures of the space.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { SeatFigures, Setup } from '../../core/setup.ts';
import { Legend, type LegendEntry } from './chart/legend.tsx';
import { type Fact, Facts } from './facts.tsx';
import { LiveContext, type Trials } from './live.ts';
import { NoiseBands } from './noiseBands.tsx';
import { Candidates } from './plan/candidates.tsx';
import { Plan } from './plan/plan.tsx';
import { SideView } from './plan/sideView.tsx';
import { type Thing, thingsOf } from './plan/things.ts';
import { Fold, Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { MISSING, shown, typeset } from './words.ts';

const KEY: readonly LegendEntry[] = [
  { class: 'thing-seat key', text: 'seat', mark: 'M-5 0 a5 5 0 1 0 10 0 a5 5 0 1 0 -10 0' },
  { class: 'thing-speaker key', text: 'main loudspeaker', mark: 'M-6 -4 h12 v8 h-12 Z M-6 4 h12' },
  {
    class: 'thing-subwoofer key',
    text: 'subwoofer',
    mark: 'M-5.5 -5.5 h11 v11 h-11 Z M-3 0 a3 3 0 1 0 6 0 a3 3 0 1 0 -6 0',
  },
];

function keyOf(setup: Setup): readonly LegendEntry[] {
  const hasKeepClear = setup.room.space.fixtures.some(({ kind }) => kind === 'keep_clear');
  const hasSubs = 0 < setup.room.subwoofers.length;
  return [
    ...KEY.filter(({ text }) => hasSubs || text !== 'subwoofer'),
    ...(hasKeepClear
      ? [{ class: 'fixture-keep_clear key', text: 'keep clear', mark: 'M-9 -5 h18 v10 h-18 Z' }]
      : []),
    ...(0 < setup.layouts.length
      ? [
          {
            class: 'wanted key',
            text: 'direction the standard wants',
            mark: 'M-9 3 A16 16 0 0 1 9 3 L7.5 6 A13 13 0 0 0 -7.5 6 Z',
          },
        ]
      : []),
  ];
}

const CANDIDATE_KEY: LegendEntry = {
  class: 'candidate-key',
  text: 'place to try on',
  mark: 'M0 -6 L6 0 L0 6 L-6 0 Z',
};

function hasCandidates(trials: Trials | null): boolean {
  return trials?.found.places.some(({ candidates }) => 0 < candidates.length) === true;
}

export function RoomPart({ setup, show }: View): VNode {
  const { planView, trials } = useContext(LiveContext);
  const PlanView = planView ?? Plan;
  const { shape } = setup.room.space;
  return (
    <Section id="room" title="Room" brief={sizeText({ setup, show })}>
      {shape === null ? (
        <>
          <p class="missing">No drawing: the room’s size is not recorded, or cannot be read.</p>
          <SpaceFacts setup={setup} show={show} />
        </>
      ) : (
        <div class="room-grid">
          <figure>
            <div class="drawing-box drawing-box-plan">
              <PlanView setup={setup} show={show} shape={shape} />
            </div>
            <figcaption>
              <Legend
                entries={[...keyOf(setup), ...(hasCandidates(trials) ? [CANDIDATE_KEY] : [])]}
              />
            </figcaption>
          </figure>
          <div>
            <figure>
              <div class="drawing-box drawing-box-side">
                <SideView setup={setup} show={show} shape={shape} />
              </div>
              <figcaption>
                Plan with the front wall at the top, side view with the front wall at the left and a
                dotted line at ear height. To scale; sizes that the gear files do not give are drawn
                dashed.
              </figcaption>
            </figure>
            <SpaceFacts setup={setup} show={show} />
          </div>
        </div>
      )}
      <NoiseBands setup={setup} show={show} />
      <Candidates setup={setup} show={show} />
      <Fold id="room-positions" summary="Every position">
        <Positions setup={setup} show={show} />
      </Fold>
    </Section>
  );
}

function sizeText({ setup, show }: View): string {
  const { shape } = setup.room.space;
  if (shape === null) return 'Size not recorded.';
  if (shape.kind === 'box') {
    return `${show.length(shape.width_m)} wide, ${show.length(shape.depth_m)} deep, ${show.length(shape.height_m)} high.`;
  }
  return `Plan with ${shape.walls.length} walls.`;
}

function SpaceFacts({ setup, show }: View): VNode {
  const { space, air } = setup;
  return (
    <Facts
      facts={[
        { name: 'Volume', value: shown(space?.volume_m3 ?? null, show.volume), path: ['space'] },
        { name: 'Floor', value: shown(space?.floorArea_m2 ?? null, show.area), path: ['space'] },
        {
          name: 'Speed of sound',
          value: show.speed(air.speedOfSound_m_s),
          path: ['space', 'air'],
          note: `${show.temperature(air.temperature_k)}, ${show.share(air.relativeHumidity)} humidity${air.assumed ? ', assumed: the file gives none' : ''}`,
        },
        {
          name: 'Decay time',
          value: shown(space?.decayTime?.decayTime_s ?? null, show.decayTime),
          path: ['space', 'decay_time'],
          standing: space?.decayTime?.from === 'measured' ? 'measured' : 'predicted',
          note:
            space === null || space.nominalDecayTime_s === null
              ? ''
              : `nominal for this volume: ${show.decayTime(space.nominalDecayTime_s)}`,
        },
        noiseFact({ setup, show }),
      ]}
    />
  );
}

/** As the file gives it; of bands, the rating and what decides it. */
function noiseFact({ setup: { background = null }, show }: View): Fact {
  const fact = { name: 'Background noise', path: ['space', 'background_noise'] };
  if (background === null) return { ...fact, value: MISSING };
  const { from, nr, governing_hz, nc, level_dba, nrRange } = background;
  const range = nrRange && `NR ${nrRange[0].toFixed(0)} to ${nrRange[1].toFixed(0)}`;
  const open = range === null ? {} : { note: `one figure, its bands hidden: may be ${range}` };
  if (from === 'nc' && nc !== null) return { ...fact, value: `NC ${nc}`, ...open };
  if (from === 'level') {
    return { ...fact, value: level_dba === null ? MISSING : `${level_dba} dBA`, ...open };
  }
  if (nr === null) return { ...fact, value: MISSING };
  if (governing_hz === null) return { ...fact, value: `NR ${nr}` };
  const all = level_dba === null ? '' : `; ${level_dba.toFixed(1)} dBA in all`;
  const note = `decided at ${show.frequency(governing_hz)}${all}`;
  return { ...fact, value: `NR ${nr.toFixed(1)}`, note };
}

function Positions({ setup, show }: View): VNode {
  const seat = setup.seats.find(({ id }) => id === setup.referenceSeat);
  return (
    <WideTable label="Positions in the room">
      <TableHead
        columns={[
          'what',
          'gear',
          'channel',
          { figures: 'from left' },
          { figures: 'from front' },
          { figures: 'height' },
          { figures: 'distance' },
          { figures: 'azimuth' },
          { figures: 'elevation' },
        ]}
      />
      <tbody>
        {[...thingsOf(setup)].reverse().map((thing) => (
          <PositionRow
            key={`${thing.kind}-${thing.id}`}
            thing={thing}
            seat={seat}
            view={{ setup, show }}
          />
        ))}
      </tbody>
    </WideTable>
  );
}

function PositionRow({
  thing,
  seat,
  view: { setup, show },
}: {
  readonly thing: Thing;
  readonly seat: SeatFigures | undefined;
  readonly view: View;
}): VNode {
  const { speakers, subwoofers } = setup.room;
  const speaker = [...speakers, ...subwoofers].find(({ id }) => id === thing.id);
  const isSeat = thing.kind === 'seat';
  const angle = isSeat ? undefined : seat?.angles.find(({ source }) => source === thing.id);
  const distance = isSeat ? undefined : seat?.arrivals.find(({ source }) => source === thing.id);
  return (
    <tr {...placeOf(thing.path)}>
      <th scope="row">
        <ToSource path={thing.path}>{thing.id}</ToSource>
        {thing.isReference ? ' (reference)' : ''}
      </th>
      <td>{isSeat ? 'seat' : (speaker?.gearId ?? MISSING)}</td>
      <td>{speaker?.channel ?? ''}</td>
      <td class="number">{show.length(thing.at.x_m)}</td>
      <td class="number">{show.length(thing.at.y_m)}</td>
      <td class="number">{show.length(thing.at.z_m)}</td>
      <td class="number">{distance === undefined ? '' : show.length(distance.distance_m)}</td>
      <td class="number">{angle === undefined ? '' : typeset(show.angle(angle.azimuth_rad))}</td>
      <td class="number">{angle === undefined ? '' : typeset(show.angle(angle.elevation_rad))}</td>
    </tr>
  );
}
