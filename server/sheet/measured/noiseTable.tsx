// Recordings of a session's background noise by octave, beside the curve that they are held against, and its calibrator.

import type { VNode } from 'preact';
import type { MeasuredNoise, MeasuredSession } from '../../../core/measured/measuredFigures.ts';
import { type NoiseLimit, noiseLimit } from '../../../core/measured/noiseLimit.ts';
import type { Show } from '../../../core/show.ts';
import { WideTable } from '../section.tsx';
import { placeOf, ToSource } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { MISSING, typeset } from '../words.ts';
import { fullScaleText, limitText, weightedText } from './noiseText.ts';
import { microphoneText } from './takesTable.tsx';

export function NoiseTable({
  session,
  setup,
  show,
}: View & { readonly session: MeasuredSession }): VNode | null {
  const { noise = [], calibrator } = session;
  const limit = noiseLimit(setup.room.space.backgroundNoise);
  const bands_hz = limit.levels.map(({ nominal_hz }) => nominal_hz);
  const tone = calibrator?.tone ?? null;
  return (
    <>
      {noise.length === 0 ? null : (
        <WideTable label={`Noise recorded in ${session.session}, in dB`}>
          <TableHead
            columns={[
              'noise',
              'microphone',
              ...bands_hz.map((frequency_hz) => ({ figures: show.frequency(frequency_hz) })),
              { figures: 'A-weighted' },
              { figures: 'rating' },
            ]}
          />
          <tbody>
            {noise.map((one) => (
              <NoiseRow key={one.recording} one={one} limit={limit} show={show} />
            ))}
            <tr>
              <th scope="row">at most</th>
              <td>{limitText(limit)}</td>
              {limit.levels.map(({ nominal_hz, level_db }) => (
                <td key={nominal_hz} class="number">
                  {level_db.toFixed(1)}
                </td>
              ))}
              <td />
              <td class="number">{`${limit.curve} ${limit.rating}`}</td>
            </tr>
          </tbody>
        </WideTable>
      )}
      {!calibrator || tone === null ? null : (
        <p {...placeOf(calibrator.path)}>
          <ToSource path={calibrator.path}>Calibrator</ToSource>
          {typeset(
            `: ${show.frequency(tone.frequency_hz)}, ${show.level(tone.level_dbspl)} SPL, ${tone.level_dbfs.toFixed(1)} dBFS; ${fullScaleText(tone, show)}.`,
          )}
        </p>
      )}
    </>
  );
}

function NoiseRow({
  one,
  limit,
  show,
}: {
  readonly one: MeasuredNoise;
  readonly limit: NoiseLimit;
  readonly show: Show;
}): VNode {
  const { noise, background, recording, path } = one;
  const name = (
    <th scope="row">
      <ToSource path={path}>{recording}</ToSource>
    </th>
  );
  if (noise === null)
    return (
      <tr {...placeOf(path)}>
        {name}
        <td colspan={limit.levels.length + 3}>
          {one.isPending === true ? 'being read …' : 'not read'}
        </td>
      </tr>
    );
  const levelAt = (frequency_hz: number): number | null =>
    noise.octaves.find((octave) => octave.frequency_hz === frequency_hz)?.level_db ?? null;
  const nr = background?.nr ?? null;
  return (
    <tr {...placeOf(path)}>
      {name}
      <td>{microphoneText(one, show)}</td>
      {limit.levels.map(({ nominal_hz, level_db: most_db }) => {
        const level_db = levelAt(nominal_hz);
        const isBeyond = noise.basis === 'spl' && level_db !== null && most_db + 0.05 < level_db;
        return (
          <td key={nominal_hz} class="number">
            {level_db === null ? (
              MISSING
            ) : isBeyond ? (
              <b>{level_db.toFixed(1)}</b>
            ) : (
              level_db.toFixed(1)
            )}
          </td>
        );
      })}
      <td class="number">{typeset(weightedText(noise))}</td>
      <td class="number">{nr === null ? MISSING : `NR ${nr.toFixed(1)}`}</td>
    </tr>
  );
}
