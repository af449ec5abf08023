// Days in other spellings, put into the one of the format: 12.10.2026, 2026/10/12, 2026-1-2.

import { isDay } from '../calendar.ts';
import type { LocatedScalar } from '../model/located.ts';
import type { TextFix } from '../model/problem.ts';
import { fix } from './reading.ts';

/** The days that may have been meant: of two where day and month could be either way round. */
export function dayFixes({ text, range }: LocatedScalar): readonly TextFix[] {
  return candidates(text)
    .filter((day, index, all) => isDay(day) && all.indexOf(day) === index)
    .map((day) => fix(`Change \`${text}\` to \`${day}\``, range, day));
}

function candidates(text: string): readonly string[] {
  const yearFirst = /^(\d{4})[-/. ]+(\d{1,2})[-/. ]+(\d{1,2})$/.exec(text.trim());
  if (yearFirst) return [day(yearFirst[1], yearFirst[2], yearFirst[3])];
  const yearLast = /^(\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(\d{4})$/.exec(text.trim());
  if (yearLast === null) return [];
  const [, first, second, year] = yearLast;
  return [day(year, second, first), day(year, first, second)];
}

function day(year = '', month = '', date = ''): string {
  return `${year}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`;
}
