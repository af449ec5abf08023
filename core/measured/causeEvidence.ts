// The evidence for a cause, in sentences: what each take shows as the file has it, and what is left of that with the cause.

import type { Show } from '../show.ts';
import type { Assessed, FittedHypothesis, SessionEvidence } from './causeFit.ts';

type Told = Pick<FittedHypothesis, 'hypothesis' | 'values' | 'errors'>;

/** Twice its error a figure has moved for good. */
const MOVED = 2;
const MOST_SENTENCES = 5;

export function evidenceOf(
  { data }: SessionEvidence,
  before: Assessed,
  after: Assessed,
  { hypothesis, errors }: Told,
  show: Show,
): readonly string[] {
  const signed = (time_s: number) => `${time_s < 0 ? '-' : '+'}${show.time(Math.abs(time_s))}`;
  const level = (level_db: number) => `${level_db < 0 ? '' : '+'}${show.level(level_db)}`;
  const sentences = data.flatMap(({ planned: { take }, arrival, mid, bands }, i) => {
    const [was, is] = [before.residuals.takes[i], after.residuals.takes[i]];
    if (was === undefined || is === undefined) return [];
    const said: string[] = [];
    if (arrival && differ(was.arrival_s, is.arrival_s, arrival.error_s))
      said.push(
        `${take.id}: arrival off by ${signed(was.arrival_s ?? 0)} as stated, ${signed(is.arrival_s ?? 0)} with it`,
      );
    if (was.isTurned !== null && was.isTurned !== is.isTurned)
      said.push(
        `${take.id}: polarity ${was.isTurned ? 'turned as stated, right' : 'right as stated, turned'} with it`,
      );
    if (mid && differ(was.mid_db, is.mid_db, mid.error_db))
      said.push(
        `${take.id}: level off by ${level(was.mid_db ?? 0)} as stated, ${level(is.mid_db ?? 0)} with it`,
      );
    const [wasBass, isBass] = [rms_db(was.bands_db), rms_db(is.bands_db)];
    if (0 < bands.length && 0.5 < Math.abs(wasBass - isBass))
      said.push(
        `${take.id}: bass off by ${show.level(wasBass)} RMS as stated, ${show.level(isBass)} with it`,
      );
    return said;
  });
  const error = errorText(hypothesis.kind, errors, show);
  return [...sentences.slice(0, MOST_SENTENCES), ...(error === null ? [] : [error])];
}

function differ(was: number | null, is: number | null, error: number): boolean {
  return was !== null && is !== null && MOVED * error < Math.abs(was - is);
}

function rms_db(offs: readonly (number | null)[]): number {
  const known = offs.filter((off) => off !== null);
  return Math.sqrt(known.reduce((sum, off) => sum + off * off, 0) / Math.max(1, known.length));
}

function errorText(
  kind: FittedHypothesis['hypothesis']['kind'],
  errors: readonly number[],
  show: Show,
): string | null {
  const [error] = errors;
  if (error === undefined) return null;
  const text = {
    delay: show.time,
    level: show.level,
    distance: show.smallLength,
    moved: show.smallLength,
    dimension: show.smallLength,
    air: (by_k: number) => `${by_k.toFixed(1)} K`,
    swapped: null,
    polarity: null,
    port: null,
  }[kind];
  return text === null ? null : `These takes show it to about ± ${text(Math.max(...errors))}`;
}
