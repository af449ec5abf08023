// A room fitted to takes in words: what was moved and how sure that is, what it brings, what could not be told, and the edit.

import type { FittedSide, NotFitted, RoomFromTakes } from '../../core/measured/roomFromTakes.ts';
import type { Show } from '../../core/show.ts';

export function roomFitLines(found: RoomFromTakes, show: Show): readonly string[] {
  const { session, takes, before_db, after_db, fix, decays_hz, spread_db } = found;
  const edits = (fix?.edits ?? []).map((edit) =>
    edit.do === 'set' ? `${edit.path.join('.')}: ${edit.value}` : `${edit.path.join('.')}: away`,
  );
  const decays =
    decays_hz.length === 0
      ? []
      : [` and the decays of ${decays_hz.map((f_hz) => show.frequency(f_hz)).join(', ')}`];
  return [
    `${session}: bass off by ${before_db.toFixed(2)} dB RMS as stated, ${after_db.toFixed(2)} dB with the edit`,
    ...absorptionLines(found, show),
    ...found.sides.filter(({ isTold }) => isTold).map((side) => sideText(side, show)),
    ...speedLines(found),
    ...untoldLines(found, show),
    `from ${takes.join(', ')}${decays.join('')}; single sixths of an octave are off by ${spread_db.toFixed(1)} dB at the lowest frequencies`,
    ...(edits.length === 0 ? ['nothing worth writing'] : edits),
  ];
}

/** Errors are told as they are: one deviation. */
function absorptionLines({ form, bands }: RoomFromTakes, show: Show): readonly string[] {
  const told = bands.filter(({ isTold }) => isTold);
  const [first] = told;
  if (first === undefined) return [];
  const one = ({ absorption_ratio, error_ratio }: typeof first) =>
    `× ${absorption_ratio.toFixed(2)} ± ${(absorption_ratio * error_ratio).toFixed(2)}`;
  const decay = ({ frequency_hz, stated_s, fitted_s }: typeof first) =>
    `${show.frequency(frequency_hz)} ${show.decayTime(stated_s)} to ${show.decayTime(fitted_s)}`;
  if (form === 'stated' || form === 'factor')
    return [
      `absorption in the bass ${one(first)}${form === 'stated' ? ': no clear change' : `: decay of oblique modes ${told.map(decay).join(', ')}`}`,
    ];
  return told.map(
    (band) => `absorption at ${show.frequency(band.frequency_hz)} ${one(band)}: ${decay(band)}`,
  );
}

function sideText({ side, by_m, error_m, open_m, isWritten }: FittedSide, show: Show): string {
  const said = `${show.smallLength(Math.abs(by_m))} ${by_m < 0 ? 'less' : 'more'} ± ${show.smallLength(error_m)}`;
  return `${side} ${said}${isWritten ? '' : ': no clear change'} (open by ± ${show.smallLength(open_m)})`;
}

/** Not beyond twice its error it is as it should be. */
function speedLines({ speed: { ratio, error_ratio, isTold } }: RoomFromTakes): readonly string[] {
  if (!isTold || Math.abs(Math.log(ratio)) < 2 * error_ratio) return [];
  const percent = Math.abs(ratio - 1) * 100;
  return [
    `modes lie ${percent.toFixed(1)} % ${ratio < 1 ? 'lower' : 'higher'} than air and walls as stated make them (± ${(error_ratio * 100).toFixed(1)} %): see the air's temperature; walls that give way do it too`,
  ];
}

function untoldLines({ bands, sides }: RoomFromTakes, show: Show): readonly string[] {
  const untold = [
    ...bands.flatMap(({ isTold, frequency_hz }) =>
      isTold ? [] : [`absorption at ${show.frequency(frequency_hz)}`],
    ),
    ...sides.flatMap(({ isTold, side, open_m }) =>
      isTold ? [] : [`${side} within its ± ${show.smallLength(open_m)}`],
    ),
  ];
  return untold.length === 0 ? [] : [`these takes do not tell ${untold.join(', ')}`];
}

export const WHY_NOT_FITTED: Readonly<Record<NotFitted, string>> = {
  'no field': 'the low end of this room cannot be predicted: its shape or height is not recorded',
  'no takes': 'no session has a take of the bass that could be read and whose place is known',
  'other set-up':
    'the takes belong to an earlier set-up: what was edited since would be fitted too',
  'too little bass':
    'too little bass in the takes: two octaves between 20 and 250 Hz are needed, of a loudspeaker that plays there',
  undetermined:
    'these takes do not tell more of sides and absorption than the file does: more places, or a subwoofer’s takes, would',
};
