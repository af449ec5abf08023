// The background noise by octave, over the NR curves of the listening-room standards.

import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { VNode } from 'preact';
import type { BackgroundFigures, NoiseBand } from '../../core/backgroundFigures.ts';
import { MOST_NR, PREFERRED_NR } from '../../core/noiseLimits.ts';
import { frequencyScale } from './chart/frequencyAxis.ts';
import { Legend, type LegendEntry } from './chart/legend.tsx';
import { Curves, fieldHeight_px, Plot, percent } from './chart/plot.tsx';
import { WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { typeset } from './words.ts';

const HEIGHT_PX = 230;
const STEP_DB = 10;
const WORDED_HZ: readonly number[] = [31.5, 125, 500, 2000, 8000];
const WITHIN: LegendEntry = {
  class: 'decay-mark decay-mark-0',
  text: `within NR ${MOST_NR}`,
  mark: 'M-5 0 A5 5 0 1 0 5 0 A5 5 0 1 0 -5 0 Z',
};
/** Told apart by form as well as by colour. */
const BEYOND: LegendEntry = {
  class: 'decay-mark decay-mark-1',
  text: `above NR ${MOST_NR}`,
  mark: 'M0 -6 L5.5 4.5 H-5.5 Z',
};
const LIMIT: LegendEntry = { class: 'noise-curve noise-limit', text: `NR ${MOST_NR}, never above` };
const PREFERRED: LegendEntry = {
  class: 'noise-curve noise-preferred',
  text: `NR ${PREFERRED_NR}, preferred`,
};

/** @returns null where the file gives no bands */
export function NoiseBands({ setup: { background = null }, show }: View): VNode | null {
  if (background === null || background.bands.length === 0) return null;
  return (
    <>
      <h3>Background noise by octave</h3>
      <div class="columns charts">
        <NoiseChart bands={background.bands} />
        <NoiseTable background={background} show={show} />
      </div>
    </>
  );
}

function NoiseChart({ bands }: { readonly bands: readonly NoiseBand[] }): VNode {
  const levels_db = bands.flatMap((band) => [band.level_db, band.preferred_db, band.limit_db]);
  const least_db = Math.floor(Math.min(...levels_db) / STEP_DB) * STEP_DB;
  const most_db = Math.max(
    least_db + STEP_DB,
    Math.ceil(Math.max(...levels_db) / STEP_DB) * STEP_DB,
  );
  const across = frequencyScale(25, 10_000);
  const down = scaleLinear().domain([most_db, least_db]).range([0, 1000]);
  const curve = (level_db: (band: NoiseBand) => number) =>
    line<NoiseBand>()
      .x(({ frequency_hz }) => across(frequency_hz) * 1000)
      .y((band) => down(level_db(band)))
      .digits(1)(bands) ?? '';
  return (
    <figure>
      <Plot
        label={`Background noise by octave over the curves of NR ${PREFERRED_NR} and NR ${MOST_NR}. The table gives the figures.`}
        height_px={HEIGHT_PX}
        across={{
          title: 'Hz',
          ticks: bands.map(({ frequency_hz }) => ({
            share: across(frequency_hz),
            // Narrow panes have no room for more words than these.
            text: WORDED_HZ.includes(frequency_hz) ? String(frequency_hz) : '',
          })),
        }}
        up={{
          title: 'dB',
          ticks: Array.from({ length: (most_db - least_db) / STEP_DB + 1 }, (_, index) => ({
            share: (index * STEP_DB) / (most_db - least_db),
            text: String(least_db + index * STEP_DB).replace('-', '−'),
          })),
        }}
      >
        <Curves height_px={HEIGHT_PX}>
          <path class={PREFERRED.class} d={curve(({ preferred_db }) => preferred_db)} />
          <path class={LIMIT.class} d={curve(({ limit_db }) => limit_db)} />
        </Curves>
        {bands.map((band) => {
          const { class: name, mark } = band.isBeyond ? BEYOND : WITHIN;
          return (
            <svg
              key={band.frequency_hz}
              x={percent(across(band.frequency_hz))}
              y={(down(band.level_db) / 1000) * fieldHeight_px(HEIGHT_PX)}
              overflow="visible"
              aria-hidden="true"
            >
              <path class={name} d={mark} />
            </svg>
          );
        })}
      </Plot>
      <figcaption>
        <Legend
          entries={[
            ...(bands.every(({ isBeyond }) => isBeyond) ? [] : [WITHIN]),
            ...(bands.some(({ isBeyond }) => isBeyond) ? [BEYOND] : []),
            PREFERRED,
            LIMIT,
          ]}
        />
      </figcaption>
    </figure>
  );
}

function NoiseTable({
  background: { bands, governing_hz },
  show,
}: Pick<View, 'show'> & { readonly background: BackgroundFigures }): VNode {
  return (
    <WideTable label="Background noise by octave" isTight>
      <TableHead
        columns={[
          { figures: 'octave' },
          { figures: 'noise' },
          { figures: 'rating' },
          { figures: `NR ${PREFERRED_NR}` },
          { figures: `NR ${MOST_NR}` },
          'state',
        ]}
      />
      <tbody>
        {bands.map((band) => (
          <tr key={band.frequency_hz} {...placeOf(band.path)}>
            <th scope="row" class="number">
              <ToSource path={band.path}>{show.frequency(band.frequency_hz)}</ToSource>
            </th>
            <td class="number">{typeset(show.level(band.level_db))}</td>
            <td class="number">{typeset(band.nr.toFixed(1))}</td>
            <td class="number">{typeset(band.preferred_db.toFixed(1))}</td>
            <td class="number">{typeset(band.limit_db.toFixed(1))}</td>
            <td>
              {[
                band.isBeyond ? 'above' : 'within',
                ...(band.frequency_hz === governing_hz ? ['decides'] : []),
              ].join(', ')}
            </td>
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}
