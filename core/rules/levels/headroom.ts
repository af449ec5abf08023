// Rule levels/headroom: the mains can make the peaks above the reference level at the seat.

import type { Severity } from '../../../schema/model/problem.ts';
import { grouped } from '../../signal/grouped.ts';
import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly ids: readonly string[];
  readonly seat: string;
  readonly short_db: number;
  readonly frequency_hz: number;
  readonly wanted_db: number;
}

/** Half of the last digit shown. */
const ROUNDING_DB = 0.05;
/** Below this the mains' peaks are rarer, and a subwoofer may take them: common practice, no source. */
const PEAKS_FROM_HZ = 125;
/** A quarter of the power: heard as strain. Common practice, no source. */
const SEVERE_DB = 6;

export const levelsHeadroom: Rule = defineRule<Fact>({
  code: 'levels/headroom',
  severity: 'information',
  title: 'Headroom of the mains',
  reason:
    'Peaks lie some 20 dB above the reference level; a loudspeaker that cannot make them limits or distorts there.',
  advice:
    'Listen at a lower level, sit nearer, take boosts out of the equaliser, let a subwoofer take the bass, or use a larger loudspeaker.',
  source:
    'peaks 20 dB above the level of noise at −20 dBFS RMS (SMPTE RP 200); data sheet’s peaks by band, free field, 20 lg of the distance',

  *find({ room, levels: { reach } }) {
    const short = (reach ?? []).flatMap((figures) => {
      const { worst, wanted_db, isSubwoofer, isLfe } = figures;
      if (isSubwoofer || isLfe || worst === null || wanted_db === null) return [];
      return worst.headroom_db < -ROUNDING_DB ? [{ ...figures, worst, wanted_db }] : [];
    });
    // Loudspeakers of one model at one distance are one finding.
    const alike = grouped(short, ({ worst }) =>
      [worst.frequency_hz, worst.headroom_db.toFixed(1)].join(),
    );
    for (const [first, ...others] of alike.values()) {
      if (first === undefined) continue;
      const { worst, wanted_db, seat } = first;
      const ids = [...new Set([first, ...others].map(({ source }) => source))];
      yield {
        path: sourcePath(room, first.source),
        fact: {
          ids,
          seat,
          short_db: -worst.headroom_db,
          frequency_hz: worst.frequency_hz,
          wanted_db,
        },
        severity: severityOf(worst),
        measured: { value: worst.headroom_db, unit: 'dB' },
        limit: { value: 0, unit: 'dB' },
        related: ids
          .slice(1)
          .map((id) => ({ path: sourcePath(room, id), message: 'As much short' })),
      };
    }
  },

  message: ({ ids, seat, short_db, frequency_hz, wanted_db }, show) =>
    `${ids.join(', ')}: ${show.level(short_db)} short of peaks of ${show.level(wanted_db)} at ${seat}, at ${show.frequency(frequency_hz)}`,
});

function severityOf({
  frequency_hz,
  headroom_db,
}: {
  readonly frequency_hz: number;
  readonly headroom_db: number;
}): Severity {
  if (frequency_hz < PEAKS_FROM_HZ) return 'hint';
  return headroom_db < -SEVERE_DB ? 'warning' : 'information';
}
