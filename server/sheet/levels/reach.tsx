// Loudest at the seat: what each loudspeaker and channel can make by third octaves, beside what peaks ask for.

import type { VNode } from 'preact';
import type { ReachFigures } from '../../../core/levelFigures.ts';
import { sourcePath } from '../arrivalsPart.tsx';
import { Fold, WideTable } from '../section.tsx';
import { placeOf, ToSource } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { MISSING, signed } from '../words.ts';

export function Reach({ setup, show }: View): VNode | null {
  const reach = (setup.levels.reach ?? []).filter(({ bands }) =>
    bands.some(({ driver_db }) => driver_db !== null),
  );
  if (reach.length === 0) return null;
  return (
    <>
      <h3>Loudest at the seat</h3>
      <p>
        Peaks in a free field, by data sheet and distance; what the room adds in the bass is not
        counted. Wanted are the reference level and 20 dB, 10 dB more for the LFE.
      </p>
      <WideTable label="Loudest at the seat">
        <TableHead
          columns={[
            'loudspeaker',
            { figures: 'wanted' },
            { figures: 'least headroom' },
            { figures: 'in the third octave' },
            'limited by',
          ]}
        />
        <tbody>
          {reach.map((figures) => (
            <ReachRow key={nameOf(figures)} figures={figures} view={{ setup, show }} />
          ))}
        </tbody>
      </WideTable>
      <Sums setup={setup} show={show} />
      <Bands reach={reach} />
      <Channels setup={setup} show={show} />
    </>
  );
}

function ReachRow({
  figures,
  view: { setup, show },
}: {
  readonly figures: ReachFigures;
  readonly view: View;
}): VNode {
  const { worst, wanted_db, bands, together } = figures;
  const path = sourcePath(setup, figures.source);
  const at = bands.find(({ frequency_hz }) => frequency_hz === worst?.frequency_hz);
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>{nameOf(figures)}</ToSource>
        {together.length === 0 ? null : (
          <span class="note">{`together with ${together.join(', ')}`}</span>
        )}
      </th>
      <td class="number">{wanted_db === null ? MISSING : show.level(wanted_db)}</td>
      <td class="number">
        {worst === null ? MISSING : signed(worst.headroom_db, show.level(worst.headroom_db))}
      </td>
      <td class="number">{worst === null ? MISSING : show.frequency(worst.frequency_hz)}</td>
      <td>{at?.limitedBy === 'signal' ? 'signal as dialled in' : (at?.limitedBy ?? MISSING)}</td>
    </tr>
  );
}

function nameOf({ source, set, isLfe }: ReachFigures): string {
  return [source, ...(set === null ? [] : [set]), ...(isLfe ? ['LFE'] : [])].join(', ');
}

function Sums({ setup, show }: View): VNode | null {
  const sums = (setup.levels.bassSums ?? []).filter(({ headroom_db }) => headroom_db !== null);
  if (sums.length === 0) return null;
  return (
    <ul class="plain">
      {sums.map(({ sub, set, sum_db, atBus_db, headroom_db }) => (
        <li key={`${sub} ${set ?? ''}`} {...placeOf(['subwoofers', sub])}>
          {`${sub}${set === null ? '' : `, ${set}`}: the same bass in everything that it carries is ${show.level(sum_db)} above one channel; headroom with all of it `}
          {headroom_db === null ? MISSING : signed(headroom_db, show.level(headroom_db))}
          {0.05 < atBus_db
            ? `; full scale in all of it is ${show.level(atBus_db)} over where it is added.`
            : '.'}
        </li>
      ))}
    </ul>
  );
}

/** Whole decibels: the data sheets know no more. */
function Bands({ reach }: { readonly reach: readonly ReachFigures[] }): VNode {
  const bands = [
    ...new Set(reach.flatMap(({ bands: all }) => all.map(({ frequency_hz }) => frequency_hz))),
  ].sort((a, b) => a - b);
  return (
    <Fold id="levels-bands" summary="Loudest at the seat by third octaves" isLong>
      <WideTable label="Loudest at the seat by third octaves" isTight>
        <TableHead
          columns={[
            'loudspeaker',
            ...bands.map((frequency_hz) => ({
              figures: frequency_hz < 1000 ? `${frequency_hz}` : `${frequency_hz / 1000}k`,
            })),
          ]}
        />
        <tbody>
          {reach.map((figures) => (
            <tr key={nameOf(figures)}>
              <th scope="row">{nameOf(figures)}</th>
              {bands.map((frequency_hz) => {
                const band = figures.bands.find((one) => one.frequency_hz === frequency_hz);
                return (
                  <td key={frequency_hz} class="number">
                    {band === undefined || band.max_db === null ? MISSING : band.max_db.toFixed(0)}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </WideTable>
    </Fold>
  );
}

function Channels({ setup, show }: View): VNode | null {
  const channels = (setup.levels.channels ?? []).filter(({ worst }) => worst !== null);
  if (channels.length === 0) return null;
  return (
    <Fold id="levels-channels" summary="Least headroom by channel">
      <ul class="plain">
        {channels.map(({ channel, set, worst, bands }) => {
          const at = bands.find(({ frequency_hz }) => frequency_hz === worst?.frequency_hz);
          return (
            <li key={`${channel} ${set ?? ''}`}>
              {`${channel}${set === null ? '' : `, ${set}`}: `}
              {worst === null
                ? MISSING
                : `${signed(worst.headroom_db, show.level(worst.headroom_db))} at ${show.frequency(worst.frequency_hz)}, by ${at?.limitedBy === 'signal' ? 'the signal as dialled in' : at?.limitedBy}`}
            </li>
          );
        })}
      </ul>
    </Fold>
  );
}
