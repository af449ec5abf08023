// Rule delay/latency: monitoring as a whole is not late.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly late_s: number;
  readonly latency_s: number;
  readonly delay_s: number;
}

/** What players and singers begin to feel in their monitoring: common practice, no source. */
const FELT_S = 0.01;
/** Sound behind the picture. @source EBU R 37: at most 60 ms late (from memory) */
const PICTURE_S = 0.06;

export const delayLatency: Rule = defineRule<Fact>({
  code: 'delay/latency',
  severity: 'information',
  title: 'Total latency',
  reason: 'Whoever plays hears themselves late by as much, and the sound falls behind the picture.',
  advice:
    'Take processing out of the way, or delay the picture by as much; tell it to whoever works here.',
  source:
    '10 ms while playing: common practice, no source; 60 ms behind the picture: EBU R 37 (from memory)',

  *find({ room, signalPaths }) {
    const known = signalPaths.flatMap(({ target, latency_s, delay_s }) =>
      latency_s === null || !room.speakers.some(({ id }) => id === target)
        ? []
        : [{ id: target, late_s: latency_s + delay_s, latency_s, delay_s }],
    );
    const worst = known.toSorted((a, b) => b.late_s - a.late_s)[0];
    if (worst === undefined || worst.late_s <= FELT_S + 1e-9) return;
    const isBehind = PICTURE_S < worst.late_s;
    yield {
      path: ['speakers', worst.id],
      fact: worst,
      severity: isBehind ? 'warning' : 'information',
      measured: { value: worst.late_s, unit: 's' },
      limit: { value: isBehind ? PICTURE_S : FELT_S, unit: 's' },
    };
  },

  message: ({ id, late_s, latency_s, delay_s }, show) =>
    `${id} plays ${show.time(late_s)} behind the source's output: ${show.time(latency_s)} of latency, ${show.time(delay_s)} of delay`,
});
