// Rule space/bonello: the number of modes a third octave never falls, and coincident modes have company.

import type { Severity } from '../../../schema/model/problem.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly falls_hz: readonly number[];
  readonly alone_hz: readonly number[];
}

/** A fall of one mode to none below this mostly means that the room is small: common practice, no source. */
const LOWEST_HZ = 40;

export const spaceBonello: Rule = defineRule<Fact>({
  code: 'space/bonello',
  severity: 'information',
  title: 'Modes thin out in a band',
  reason:
    'Where a band holds fewer modes than the one below, or a lone pair at one frequency, bass is uneven.',
  advice: 'Expect that band to need care: place of seat and subwoofers, damping, equalisation.',
  source: 'Bonello, J. Audio Eng. Soc. 29 (1981) 597',

  *find({ space }) {
    const bonello = space?.bonello;
    if (!bonello || (bonello.risesThroughout && bonello.coincidencesCovered)) return;
    const falls_hz = bonello.bands.filter(({ falls }) => falls).map((band) => band.frequency_hz);
    const alone_hz = bonello.bands
      .filter(({ coincident, count }) => coincident && count < 5) // five in company: same source
      .map((band) => band.frequency_hz);
    const onlyLowest = alone_hz.length === 0 && falls_hz.every((band) => band < LOWEST_HZ);
    const severity: Severity = onlyLowest ? 'hint' : 'information';
    yield { path: ['space', 'size'], fact: { falls_hz, alone_hz }, severity };
  },

  message({ falls_hz, alone_hz }, show) {
    const list = (bands: readonly number[]) => bands.map(show.frequency).join(', ');
    const parts: string[] = [];
    if (0 < falls_hz.length) parts.push(`fewer modes than in the band below at ${list(falls_hz)}`);
    if (0 < alone_hz.length) parts.push(`coincident modes without company at ${list(alone_hz)}`);
    const text = parts.join('; ');
    return text.charAt(0).toUpperCase() + text.slice(1);
  },
});
