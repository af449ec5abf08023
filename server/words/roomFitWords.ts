// A room fitted to takes in words: what was moved, what it brings, and the edit.

import type { NotFitted, RoomFromTakes } from '../../core/measured/roomFromTakes.ts';
import type { Show } from '../../core/show.ts';

const SIDES = ['width', 'depth', 'height'] as const;

export function roomFitLines(
  { session, takes, absorption_ratio, size_m, before_db, after_db, fix }: RoomFromTakes,
  show: Show,
): readonly string[] {
  const sides = SIDES.flatMap((side, i) => {
    const by_m = size_m[i] ?? 0;
    return Math.abs(by_m) < 0.001
      ? []
      : [`${side} ${show.smallLength(Math.abs(by_m))} ${by_m < 0 ? 'less' : 'more'}`];
  });
  const edits = (fix?.edits ?? []).map((edit) =>
    edit.do === 'set' ? `${edit.path.join('.')}: ${edit.value}` : `${edit.path.join('.')}: away`,
  );
  return [
    `${session}: bass off by ${before_db.toFixed(2)} dB RMS as stated, ${after_db.toFixed(2)} dB fitted`,
    `absorption in the bass × ${absorption_ratio.toFixed(2)}${sides.map((side) => `, ${side}`).join('')}`,
    `from ${takes.join(', ')}`,
    ...(edits.length === 0 ? ['nothing worth writing'] : edits),
  ];
}

export const WHY_NOT_FITTED: Readonly<Record<NotFitted, string>> = {
  'no field': 'the low end of this room cannot be predicted: its size is not recorded',
  'no box': 'only box rooms can be fitted to takes',
  'no takes': 'no session has a take of the bass that could be read',
};
