// The crossover's figures in words: as dialled in, as practice starts, as the acoustic sum says.

import type { CrossoverFigures, CrossoverOutcome } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { code, type Explanation, plain } from './explanation.ts';

export function filterText({ filter }: CrossoverOutcome, show: Show): string {
  return `${show.frequency(filter.frequency_hz)}, ${filter.slope_db_oct} dB/oct`;
}

/** "ripple 1.8 dB" as dialled in, then the best sum where it is another one: "sum → 90 Hz, 24 dB/oct", "0.3 dB at sub +2.85 ms". */
export function crossoverLabel(figures: CrossoverFigures, show: Show): readonly string[] {
  const { current, ranked, bypassed } = figures;
  const best = ranked[0];
  const now = bypassed ? ['bypassed'] : current ? [`ripple ${show.level(current.ripple_db)}`] : [];
  if (!best) return now;
  if (!current || !sameFilter(current, best)) return [...now, `sum → ${filterText(best, show)}`];
  // The right filter; what is left to gain lies in the delay between subwoofer and mains.
  return current.ripple_db - best.ripple_db < NOTABLE_db
    ? now.map((text) => `✓ ${text}`)
    : [...now, `${show.level(best.ripple_db)} at sub ${signed(show.time(best.subDelay_s))}`];
}

/** Less ripple than this is not worth another delay (our own choice). */
const NOTABLE_db = 1;

function signed(text: string): string {
  return text.startsWith('-') ? text : `+${text}`;
}

export function explainCrossover(figures: CrossoverFigures, show: Show): Explanation {
  const { current, practice, ranked, mainsMinus6db_hz, caveat } = figures;
  const lines = [`mains ${names(figures.mains)}, subwoofers ${names(figures.subs)}`];
  if (mainsMinus6db_hz !== null)
    lines.push(`the mains are 6 dB down at ${show.frequency(mainsMinus6db_hz)}`);
  if (figures.bypassed) lines.push('bypassed');
  if (current) lines.push(`as dialled in: ${outcomeText(current, show)}`);
  if (practice) lines.push(`the start that practice names: ${outcomeText(practice, show)}`);
  for (const [index, outcome] of ranked.slice(0, 3).entries())
    lines.push(
      `${index === 0 ? 'what the acoustic sum says' : 'next best'}: ${outcomeText(outcome, show)}${outcome.reasons.length === 0 ? '' : ` — ${plain(outcome.reasons.join('; '))}`}`,
    );
  if (caveat !== null) lines.push(plain(caveat));
  return {
    title: `Crossover of ${code(figures.device)}`,
    lines,
    source:
      'acoustic sum of filters and natural roll-offs; the starting point is common practice, no source',
  };
}

function outcomeText(outcome: CrossoverOutcome, show: Show): string {
  const { polarity, ripple_db, dip, phaseAtCrossover_rad, subDelay_s } = outcome;
  return `**${filterText(outcome, show)}**, polarity ${polarity}, subwoofer ${show.time(subDelay_s)} against the mains: ripple ${show.level(ripple_db)}, deepest ${show.level(dip.level_db)} at ${show.frequency(dip.frequency_hz)}, phase at the crossover ${show.angle(phaseAtCrossover_rad)}`;
}

function sameFilter(one: CrossoverOutcome, other: CrossoverOutcome): boolean {
  return (
    one.filter.frequency_hz === other.filter.frequency_hz &&
    one.filter.slope_db_oct === other.filter.slope_db_oct
  );
}

function names(ids: readonly string[]): string {
  return ids.length === 0 ? 'none' : ids.map(code).join(', ');
}
