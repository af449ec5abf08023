// Calibration: what a meter should read, channel by channel, and the levels that documents name for such a room.

import type { VNode } from 'preact';
import type { CalibrationTarget } from '../../../core/levelFigures.ts';
import { Fold, WideTable } from '../section.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { listed, typeset } from '../words.ts';

export function Calibration({ setup, show }: View): VNode | null {
  const targets = alike(setup.levels.calibration ?? []);
  if (targets.length === 0) return null;
  return (
    <>
      <h3>What the meter should read</h3>
      <p>
        At the reference seat, meter on slow (S), averaged over 10 s or more; pink noise of the band
        named at the RMS level named. <code>groundbass noise</code> makes it. Start at least 20 dB
        lower.
      </p>
      <WideTable label="What the meter should read">
        <TableHead
          columns={[
            'channel',
            'noise',
            { figures: 'signal' },
            { figures: 'meter reads' },
            { figures: 'band cut from wide noise' },
            'why',
          ]}
        />
        <tbody>
          {targets.map(({ first, channels }) => (
            <tr key={channels.join()}>
              <th scope="row">
                {listed(channels)}
                <span class="note">{WHAT[first.kind]}</span>
              </th>
              <td>{`${show.frequency(first.band_hz[0])} to ${show.frequency(first.band_hz[1])}`}</td>
              <td class="number">{typeset(`${first.signal_dbfs} dBFS`)}</td>
              <td class="number">
                {`${first.reading_db.toFixed(1)} dB${first.weighting}`}
                <span class="note">{`±${first.tolerance_db} dB`}</span>
              </td>
              <td class="number">{`${first.cut_db.toFixed(1)} dB${first.weighting}`}</td>
              <td>{first.source}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </>
  );
}

const WHAT: Readonly<Record<CalibrationTarget['kind'], string>> = {
  main: 'main loudspeaker',
  bass: 'with its subwoofers',
  lfe: 'LFE, +10 dB in band',
};

/** Channels that read alike are one row. */
function alike(
  targets: readonly CalibrationTarget[],
): readonly { readonly first: CalibrationTarget; readonly channels: readonly string[] }[] {
  const rows = new Map<
    string,
    { readonly first: CalibrationTarget; readonly channels: string[] }
  >();
  for (const target of targets) {
    const { kind, reading_db, band_hz, channel } = target;
    const key = JSON.stringify([kind, reading_db, band_hz]);
    const row = rows.get(key);
    if (row === undefined) rows.set(key, { first: target, channels: [channel] });
    else if (!row.channels.includes(channel)) row.channels.push(channel);
  }
  return [...rows.values()];
}

export function NamedReferences({ setup }: View): VNode | null {
  const named = setup.levels.named ?? [];
  if (named.length === 0) return null;
  return (
    <Fold id="levels-named" summary="Reference levels that documents name">
      <WideTable label="Reference levels that documents name">
        <TableHead
          columns={['document', { figures: 'level' }, { figures: 'signal' }, 'for', 'source']}
        />
        <tbody>
          {named.map(({ name, level_db, weighting, signal_dbfs, about, source }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td class="number">{`${level_db.toFixed(0)} dB${weighting}`}</td>
              <td class="number">{typeset(`${signal_dbfs} dBFS`)}</td>
              <td>{about}</td>
              <td>{source}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </Fold>
  );
}
