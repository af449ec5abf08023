// EQ fits in words: bands as the file writes them, what they bring seat by seat, what they cost, and what is to be watched.

import type { FitBand, FitWarning } from '../../core/equaliser/fitTask.ts';
import type { MeasuredResponses } from '../../core/equaliser/measuredResponses.ts';
import type { RoomFit } from '../../core/equaliser/roomFit.ts';
import type { SemanticEdit } from '../../core/finding.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';

/** The setting's text: `{ band_1: { frequency: 41 Hz, gain: -4.5 dB, q: 4.2 } }`. */
export function bandsText(bands: readonly FitBand[]): string {
  const parts = bands.map(
    ({ frequency_hz, gain_db, q }, index) =>
      `band_${index + 1}: { frequency: ${plain(frequency_hz)} Hz, gain: ${plain(gain_db)} dB, q: ${plain(q)} }`,
  );
  return `{ ${parts.join(', ')} }`;
}

/** "sub", "proc.out_3". */
export function fitName({ device, port, set }: RoomFit): string {
  return [device, port, set].filter((part) => part !== null).join('.');
}

/** The bands of all that has any; nothing is edited where nothing would be mended. */
export function fitEdits(fits: readonly RoomFit[]): readonly SemanticEdit[] {
  return fits
    .filter(({ fit: { bands } }) => 0 < bands.length)
    .map(({ path, fit: { bands } }) => ({ do: 'set', path, value: bandsText(bands) }));
}

/** "mix 4.7 → 2.7 dB, producer 5.0 → 4.1 dB": distance from the target before and after. */
export function gainText(fits: readonly RoomFit[]): string {
  return fits
    .flatMap((one) =>
      one.fit.seats.map(({ seat, before_db, after_db }) => {
        const of = 1 < fits.length ? `${fitName(one)} at ` : '';
        return `${of}${seat} ${before_db.toFixed(1)} → ${after_db.toFixed(1)} dB`;
      }),
    )
    .join(', ');
}

/** "sub, 20 Hz to 87 Hz: 3.9 dB RMS from the target before, 2.8 dB after (0.1 dB of it by the device’s steps)". */
export function fitSummary({ sources, limits, fit }: RoomFit, show: Show): string {
  const { before_db, after_db, exact } = fit;
  const range = `${show.frequency(Math.round(limits.from_hz))} to ${show.frequency(Math.round(limits.to_hz))}`;
  const rounding_db = after_db - exact.after_db;
  return `${sources.join(', ')}, ${range}: ${before_db.toFixed(1)} dB RMS from the target before, ${after_db.toFixed(1)} dB after${0.05 <= rounding_db ? ` (${rounding_db.toFixed(1)} dB of it by the device’s steps)` : ''}`;
}

export function fitLines(one: RoomFit, show: Show): readonly string[] {
  const { heard, fit } = one;
  return [
    fitSummary(one, show),
    ...bandTexts(fit.bands),
    ...(heard.length < 2
      ? []
      : [
          fit.seats
            .map(
              (seat) =>
                `${seat.seat} ${seat.before_db.toFixed(1)} → ${seat.after_db.toFixed(1)} dB`,
            )
            .join(', '),
        ]),
    headroomText(fit.headroom, show),
    ...warningTexts(fit.warnings, show),
  ];
}

/** "band_1: 41 Hz, -4.5 dB, Q 4.2". */
export function bandTexts(bands: readonly FitBand[]): readonly string[] {
  return bands.map(
    ({ frequency_hz, gain_db, q }, index) =>
      `band_${index + 1}: ${plain(frequency_hz)} Hz, ${plain(gain_db)} dB, Q ${plain(q)}`,
  );
}

/** Why nothing can be fitted in this room. */
export function whyNoFit({ field, room }: Pick<Setup, 'field' | 'room'>): string {
  if (!field) return 'the low end of this room cannot be predicted: its size is not recorded';
  const things = [...room.devices, ...room.speakers, ...room.subwoofers];
  const has = things.some(({ gear }) => gear?.controls.some(({ kind }) => kind === 'eq'));
  return has
    ? 'no equaliser lies on the way to a loudspeaker whose response is predicted'
    : 'none of its devices has an equaliser';
}

/** Why nothing can be fitted to a session. */
export const noTakes = (session: string): string =>
  `session ${session} has no take of one loudspeaker at a seat that could be read`;
export const NOT_ON_THE_WAY =
  'no equaliser lies on the way to a loudspeaker that these takes are of';

/** What a fit costs, what it leaves alone, and what is to be watched, a sentence each. */
export function remarksOfFit(
  { fit: { headroom, warnings } }: RoomFit,
  show: Show,
): readonly string[] {
  return [headroomText(headroom, show), ...warningTexts(warnings, show)];
}

function headroomText(
  { boost_db, boostAt_hz, cut_db, cutAt_hz }: RoomFit['fit']['headroom'],
  show: Show,
) {
  const cut =
    cutAt_hz === null
      ? ''
      : `; takes up to ${cut_db.toFixed(1)} dB away at ${show.frequency(Math.round(cutAt_hz))}`;
  return boost_db < 0.05 || boostAt_hz === null
    ? `costs no headroom${cut}`
    : `costs ${boost_db.toFixed(1)} dB of headroom at ${show.frequency(Math.round(boostAt_hz))}${cut}`;
}

/** Nulls of one seat together, the others one by one. */
function warningTexts(warnings: readonly FitWarning[], show: Show): readonly string[] {
  const nulls = new Map<string, string[]>();
  const texts: string[] = [];
  for (const warning of warnings) {
    if (warning.kind === 'null left') {
      const at = show.frequency(Math.round(warning.null.frequency_hz));
      nulls.set(warning.seat, [...(nulls.get(warning.seat) ?? []), at]);
    } else texts.push(warningText(warning, show));
  }
  const left = [...nulls].map(
    ([seat, at]) =>
      `left alone at ${seat}: ${at.join(', ')} (${at.length === 1 ? 'a null; no equaliser fills it' : 'nulls; no equaliser fills them'})`,
  );
  return [...left, ...texts];
}

function warningText(
  warning: Exclude<FitWarning, { readonly kind: 'null left' }>,
  show: Show,
): string {
  switch (warning.kind) {
    case 'one seat':
      return 'fitted to one point: measure a few more around it before it is trusted';
    case 'worse at a seat':
      return `${warning.seat} gets ${warning.by_db.toFixed(1)} dB worse`;
    case 'boost in a null':
      return `raises a null at ${warning.seat}, ${show.frequency(Math.round(warning.frequency_hz))}, by ${warning.level_db.toFixed(1)} dB`;
    case 'nothing to cut':
      return 'nothing that a band would mend';
    case 'bands too few':
      return `all bands are in use and ${warning.left_db.toFixed(1)} dB are left`;
  }
}

/** At most three decimals, none that say nothing. */
function plain(value: number): string {
  return String(Number(value.toFixed(3)));
}

/** Keys of the JSON that other tools may rely on; told in docs/command-line.md. */
export function fitFigures(
  fits: readonly RoomFit[],
  { room, referenceSeat }: Pick<Setup, 'room' | 'referenceSeat'>,
  measured: Pick<MeasuredResponses, 'session' | 'takes'> | null = null,
): Readonly<Record<string, unknown>> {
  return {
    version: 1,
    room: room.name,
    reference_seat: referenceSeat,
    from: measured === null ? 'prediction' : 'measurement',
    ...(measured === null ? {} : { session: measured.session, takes: measured.takes }),
    fits: fits.map(({ device, control, port, set, sources, heard, limits, fit, ...rest }) => ({
      device,
      control,
      port,
      set,
      sources,
      from_hz: limits.from_hz,
      to_hz: limits.to_hz,
      bands: fit.bands.map((band) => ({
        frequency_hz: Number(band.frequency_hz.toFixed(3)),
        gain_db: Number(band.gain_db.toFixed(3)),
        q: Number(band.q.toFixed(3)),
      })),
      before_db: fit.before_db,
      after_db: fit.after_db,
      headroom_db: fit.headroom.boost_db,
      cut_db: fit.headroom.cut_db,
      seats: fit.seats.map(({ seat, before_db, after_db, nulls, level_db }, index) => ({
        seat,
        from: heard[index]?.from ?? 'prediction',
        before_db,
        after_db,
        nulls_hz: nulls.map(({ frequency_hz: at_hz }) => Number(at_hz.toFixed(1))),
        level_before_db: (heard[index]?.level_db ?? []).map((level) => Number(level.toFixed(2))),
        level_after_db: Array.from(level_db, (level) => Number(level.toFixed(2))),
      })),
      checked_seats: rest.checked.seats.map(({ seat, before_db, after_db }, index) => ({
        seat,
        from: rest.checked.heard[index]?.from ?? 'prediction',
        before_db,
        after_db,
      })),
      frequency_hz: rest.frequency_hz.map((f_hz) => Number(f_hz.toFixed(3))),
      target_db: rest.target_db.map((level) => Number(level.toFixed(2))),
      warnings: fit.warnings,
    })),
  };
}
