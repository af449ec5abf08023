// What has moved between two dated sessions, a table a pair: response, level, arrival, polarity, decay; later minus earlier.

import type { VNode } from 'preact';
import type { DriftFigures, SessionDrift, TakeDrift } from '../../core/record/driftFigures.ts';
import { Mark } from './mark.tsx';
import { pairText } from './recordText.ts';
import { Fold, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { listed, MISSING, shown, signed } from './words.ts';

export function DriftTables({ setup, show }: View): VNode | null {
  const { drift } = setup;
  if (!drift) return null;
  return (
    <div class="drift">
      <h3>What has moved</h3>
      <p>{`Later minus earlier. A response may move ${show.level(drift.limit_db)} rms over its third octaves, a level as much against the other takes (${drift.limitFrom === 'policy' ? 'the policy' : 'common practice, no source'}).`}</p>
      {drift.pairs.map((pair) => (
        <Pair key={`${pair.earlier} ${pair.later}`} pair={pair} show={show} />
      ))}
    </div>
  );
}

function Pair({ pair, show }: { readonly pair: SessionDrift; readonly show: View['show'] }): VNode {
  return (
    <div {...placeOf(pair.path)}>
      <h4>{pairText(pair)}</h4>
      <WideTable label={pairText(pair)}>
        <TableHead
          columns={[
            'take',
            { figures: 'response, rms' },
            { figures: 'most' },
            { figures: 'level' },
            { figures: 'arrival' },
            'decay',
            'state',
          ]}
        />
        <tbody>
          {pair.takes.map((take) => (
            <TakeRow key={take.laterTake} take={take} pair={pair} show={show} />
          ))}
        </tbody>
      </WideTable>
      <Bands pair={pair} show={show} />
    </div>
  );
}

function TakeRow({
  take,
  pair,
  show,
}: {
  readonly take: TakeDrift;
  readonly pair: SessionDrift;
  readonly show: View['show'];
}): VNode {
  const { response, level_db, arrival, isPolarityTurned, moved } = take;
  return (
    <tr {...placeOf(take.path)}>
      <th scope="row">
        <ToSource path={take.path}>{take.laterTake}</ToSource>
      </th>
      <td class="number">{shown(response?.rms_db ?? null, show.level)}</td>
      <td class="number">
        {response === null
          ? MISSING
          : `${signed(response.worst.moved_db, show.level(response.worst.moved_db))} at ${show.frequency(response.worst.frequency_hz)}`}
      </td>
      <td class="number">{level_db === null ? MISSING : signed(level_db, show.level(level_db))}</td>
      <td class="number">
        {arrival === null ? MISSING : signed(arrival.moved_s, show.time(arrival.moved_s))}
        {arrival === null || arrival.byAir_s === null ? null : (
          <span class="note">{`${signed(arrival.byAir_s, show.time(arrival.byAir_s))} by the air`}</span>
        )}
      </td>
      <td>{decayText(take, show)}</td>
      <td class="state">
        {pair.changed !== null && 0 < pair.changed.length ? (
          'another set-up'
        ) : (
          <>
            <Mark kind={moved.length === 0 ? 'agrees' : 'differs'} />{' '}
            {moved.length === 0 ? 'as before' : `moved: ${listed(moved)}`}
          </>
        )}
        {isPolarityTurned ? <span class="note">polarity turned</span> : null}
      </td>
    </tr>
  );
}

/** The octave that moved most against what two measurements may differ by. */
function decayText({ decay }: TakeDrift, show: View['show']): string {
  const share = (one: TakeDrift['decay'][number]): number =>
    Math.abs(one.later_s - one.earlier_s) / one.limit_s;
  const [most] = decay.toSorted((one, other) => share(other) - share(one));
  if (most === undefined) return MISSING;
  const { frequency_hz, earlier_s, later_s } = most;
  return `${show.frequency(frequency_hz)}: ${show.decayTime(earlier_s)} to ${show.decayTime(later_s)}`;
}

function Bands({
  pair,
  show,
}: {
  readonly pair: SessionDrift;
  readonly show: View['show'];
}): VNode | null {
  const takes = pair.takes.flatMap(({ laterTake, response }) =>
    response === null ? [] : [{ laterTake, response }],
  );
  const bands_hz = [...new Set(takes.flatMap(({ response }) => response.frequency_hz))].sort(
    (a, b) => a - b,
  );
  if (bands_hz.length === 0) return null;
  return (
    <Fold id={`drift-${pair.earlier}-${pair.later}`} summary="Third octaves" isLong>
      <WideTable label="Third octaves" isTight>
        <TableHead
          columns={['frequency', ...takes.map(({ laterTake }) => ({ figures: laterTake }))]}
        />
        <tbody>
          {bands_hz.map((band_hz) => (
            <tr key={band_hz}>
              <th scope="row">{show.frequency(band_hz)}</th>
              {takes.map(({ laterTake, response }) => (
                <td key={laterTake} class="number">
                  {bandText(response, band_hz, show)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </WideTable>
    </Fold>
  );
}

type Response = NonNullable<DriftFigures['pairs'][number]['takes'][number]['response']>;

function bandText(
  { frequency_hz, moved_db }: Response,
  band_hz: number,
  show: View['show'],
): string {
  const level_db = moved_db[frequency_hz.indexOf(band_hz)];
  return level_db === undefined ? MISSING : signed(level_db, show.level(level_db));
}
