// Gain along each way: the level in dBu and dBV at every point with the source at full scale, and what clips first.

import type { VNode } from 'preact';
import type { GainChain, GainPoint } from '../../../core/levelFigures.ts';
import { Fold, WideTable } from '../section.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { MISSING, signed, typeset } from '../words.ts';
import { NoiseNotes, noiseOf } from './noise.tsx';

export function GainChains({ setup, show }: View): VNode | null {
  const chains = distinct(setup.levels.chains ?? []);
  const hasNoise = 0 < (setup.levels.noise ?? []).length;
  if (chains.length === 0) return null;
  return (
    <Fold id="levels-chains" summary="Gain from the source to each driver">
      <p>
        With the source at digital full scale (0 dBFS, a sine’s RMS value, AES17); margin is what a
        point takes above that. Noise is least where the margins are small and alike.
      </p>
      <WideTable label="Gain from the source to each driver">
        <TableHead
          columns={[
            'way',
            'point',
            { figures: 'level' },
            { figures: 'takes at most' },
            { figures: 'margin' },
            ...(hasNoise ? [{ figures: 'noise at the seat' }] : []),
          ]}
        />
        <tbody>
          {chains.flatMap((chain) =>
            chain.points.map((point, index) => (
              <tr key={`${wayText(chain)} ${point.kind} ${point.at}`}>
                {0 < index ? null : (
                  <th scope="row" rowSpan={chain.points.length}>
                    {wayText(chain)}
                    <span class="note">{clipText(chain, show)}</span>
                  </th>
                )}
                <td>{point.kind === 'driver' ? `driver of ${point.at}` : point.at}</td>
                <td class="number">{levelText(point)}</td>
                <td class="number">{dbuText(point.limit_dbu)}</td>
                <td class="number">
                  {point.margin_db === null
                    ? MISSING
                    : signed(point.margin_db, show.level(point.margin_db))}
                </td>
                {hasNoise ? <td class="number">{noiseOf(setup, chain, point)}</td> : null}
              </tr>
            )),
          )}
        </tbody>
      </WideTable>
      <NoiseNotes setup={setup} show={show} />
    </Fold>
  );
}

/** Left and right alike are told once: the same points' levels under the same kind of way. */
function distinct(chains: readonly GainChain[]): readonly GainChain[] {
  const seen = new Set<string>();
  return chains.filter((chain) => {
    const key = `${chain.source} ${chain.target} ${chain.set ?? ''}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function wayText({ channel, source, target, set }: GainChain): string {
  return `${channel ?? source} to ${target}${set === null ? '' : `, ${set}`}`;
}

function clipText({ firstToClip, missing }: GainChain, show: View['show']): string {
  if (missing !== null) return `${missing} is not recorded`;
  if (firstToClip === null) return '';
  const { at, source_dbfs } = firstToClip;
  return source_dbfs < -0.05
    ? typeset(`${at} clips first, at ${source_dbfs.toFixed(1)} dBFS`)
    : `nothing clips before the source; ${show.level(source_dbfs)} to spare at ${at}`;
}

/** dBV = dBu − 2.22 dB. */
function levelText({ level_dbu }: GainPoint): string {
  if (level_dbu === null) return 'as numbers';
  const level_dbv = level_dbu + 20 * Math.log10(Math.sqrt(0.6));
  return typeset(`${level_dbu.toFixed(1)} dBu (${level_dbv.toFixed(1)} dBV)`);
}

function dbuText(level_dbu: number | null): string {
  return level_dbu === null ? MISSING : typeset(`${level_dbu.toFixed(1)} dBu`);
}
