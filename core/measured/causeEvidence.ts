// The evidence for a cause, in sentences: what each take shows as the file has it, and what is left of that with the cause.

import type { Show } from '../show.ts';
import { assess, type Evidence, type FittedCause, type SessionEvidence } from './causeFit.ts';
import type { CauseKind } from './causeHypothesis.ts';
import { AS_STATED, type Variant } from './variant.ts';

/** Twice its error a figure has moved for good. */
const MOVED = 2;
const MOST_SENTENCES = 5;

/** @param before the room without it @param after with it */
export function evidenceOf(
  evidence: Evidence,
  before: Variant,
  after: Variant,
  { hypothesis, errors }: FittedCause,
  show: Show,
): readonly string[] {
  const sentences = evidence.flatMap((one) =>
    sentencesOf(one, before, after, show).map((said) =>
      evidence.length === 1 ? said : `${one.plan.session.id}, ${said}`,
    ),
  );
  const error = errorText(hypothesis.kind, errors, show);
  return [...sentences.slice(0, MOST_SENTENCES), ...(error === null ? [] : [error])];
}

function sentencesOf(
  session: SessionEvidence,
  before: Variant,
  after: Variant,
  show: Show,
): readonly string[] {
  const [earlier, later] = [assess(session, before), assess(session, after)];
  const stated = before === AS_STATED ? 'as stated' : 'without it';
  const signed = (time_s: number) => `${time_s < 0 ? '-' : '+'}${show.time(Math.abs(time_s))}`;
  const level = (level_db: number) => `${level_db < 0 ? '' : '+'}${show.level(level_db)}`;
  return session.data.flatMap(({ planned: { take }, arrival, mid, bands }, i) => {
    const [was, is] = [earlier.residuals.takes[i], later.residuals.takes[i]];
    if (was === undefined || is === undefined) return [];
    const said: string[] = [];
    if (arrival && differ(was.arrival_s, is.arrival_s, arrival.error_s))
      said.push(
        `${take.id}: arrival off by ${signed(was.arrival_s ?? 0)} ${stated}, ${signed(is.arrival_s ?? 0)} with it`,
      );
    if (was.isTurned !== null && was.isTurned !== is.isTurned)
      said.push(
        `${take.id}: polarity ${was.isTurned ? `turned ${stated}, right` : `right ${stated}, turned`} with it`,
      );
    if (mid && differ(was.mid_db, is.mid_db, mid.error_db))
      said.push(
        `${take.id}: level off by ${level(was.mid_db ?? 0)} ${stated}, ${level(is.mid_db ?? 0)} with it`,
      );
    const [wasBass, isBass] = [rms_db(was.bands_db), rms_db(is.bands_db)];
    if (0 < bands.length && 0.5 < Math.abs(wasBass - isBass))
      said.push(
        `${take.id}: bass off by ${show.level(wasBass)} RMS ${stated}, ${show.level(isBass)} with it`,
      );
    return said;
  });
}

function differ(was: number | null, is: number | null, error: number): boolean {
  return was !== null && is !== null && MOVED * error < Math.abs(was - is);
}

function rms_db(offs: readonly (number | null)[]): number {
  const known = offs.filter((off) => off !== null);
  return Math.sqrt(known.reduce((sum, off) => sum + off * off, 0) / Math.max(1, known.length));
}

function errorText(kind: CauseKind, errors: readonly number[], show: Show): string | null {
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
