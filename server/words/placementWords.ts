// Where subwoofers could stand, in words: candidates one below the other, and one in a line.

import type { RoomCandidate, RoomPlacement } from '../../core/search/roomPlacement.ts';
import type { PlacementCandidate, SubSetting } from '../../core/search/searchTask.ts';
import type { SubControls } from '../../core/search/subControls.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';

/** RMS pascals re 20 µPa. */
export const REFERENCE_PA_DB: number = -20 * Math.log10(20e-6);

export const PLACEMENT_SOURCE =
  'seat spread: mean spatial variance, Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347 (definition from memory), as its root by frequency';

/** "x 2.70 m, y 3.40 m"; several with their names. */
export function positionText(
  { subs }: Pick<RoomPlacement, 'subs'>,
  { positions }: Pick<PlacementCandidate, 'positions'>,
  show: Show,
): string {
  return positions
    .map(({ x_m, y_m }, index) => {
      const at = `x ${show.length(x_m)}, y ${show.length(y_m)}`;
      return 1 < positions.length ? `${subs[index]?.id ?? ''} ${at}` : at;
    })
    .join('; ');
}

/** "flatness 5.8 dB, seat spread 1.3 dB". */
export function judgementText(
  { flatness_db, spread_db }: PlacementCandidate,
  seatCount: number,
): string {
  const flat = `flatness ${flatness_db.toFixed(1)} dB`;
  return seatCount < 2 ? flat : `${flat}, seat spread ${spread_db.toFixed(1)} dB`;
}

/** One candidate: where, how well, how loud, how forgiving, how set. */
export function candidateLines(
  placement: RoomPlacement,
  candidate: PlacementCandidate & Partial<Pick<RoomCandidate, 'measured'>>,
  show: Show,
): readonly string[] {
  const { seats, controls, current } = placement;
  const louder_db = current === null ? null : candidate.output_db - current.output_db;
  const lines = [
    `${positionText(placement, candidate, show)}${candidate.measured?.includes(true) ? ' (measured)' : ''}`,
    judgementText(candidate, seats.length),
    `level ${(candidate.output_db + REFERENCE_PA_DB).toFixed(1)} dB SPL${louder_db === null || candidate === current ? '' : ` (${signed(louder_db)} dB)`}`,
    ...forgivenessText(placement, candidate, show),
    ...settingTexts(placement, candidate, controls, show),
  ];
  return 0 < candidate.bestIn.length ? [...lines, `best in ${candidate.bestIn.join(', ')}`] : lines;
}

function forgivenessText(
  { subs }: RoomPlacement,
  { forgiveness_m }: PlacementCandidate,
  show: Show,
): readonly string[] {
  const told = forgiveness_m.flatMap((radius_m, index) =>
    radius_m === null
      ? []
      : [`${1 < subs.length ? `${subs[index]?.id} ` : ''}${show.smallLength(radius_m)}`],
  );
  return told.length === 0 ? [] : [`3 dB change after a move of ${told.join(', ')}`];
}

/** What is dialled in with it, of the settings that the devices have. */
function settingTexts(
  { subs }: RoomPlacement,
  { settings }: PlacementCandidate,
  controls: readonly SubControls[],
  show: Show,
): readonly string[] {
  const told = settings.flatMap((setting, index) => {
    const text = settingText(setting, controls[index], show);
    if (text === null) return [];
    return [1 < subs.length ? `${subs[index]?.id}: ${text}` : text];
  });
  return told.length === 0 ? [] : [`with ${told.join('; ')}`];
}

/** "level 2.75 dB, delay 0.50 ms" of a candidate with one sub; null where its device has nothing to set. */
export function settingsText(
  { controls }: Pick<RoomPlacement, 'controls'>,
  { settings }: Pick<PlacementCandidate, 'settings'>,
  show: Show,
): string | null {
  const [setting] = settings;
  return setting === undefined ? null : settingText(setting, controls[0], show);
}

function settingText(
  { level_db, delay_s, inverted }: SubSetting,
  controls: SubControls | undefined,
  show: Show,
): string | null {
  if (controls === undefined) return null;
  const { ranges, level, delay, polarity } = controls;
  const parts = [
    level !== null && ranges.level_db !== null ? `level ${level_db.toFixed(2)} dB` : null,
    delay !== null && ranges.delay_s !== null ? `delay ${show.time(delay_s)}` : null,
    polarity !== null ? `polarity ${inverted ? 'inverted' : 'normal'}` : null,
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.join(', ');
}

/** What was searched and by what it was judged. */
export function placementScope(placement: RoomPlacement, show: Show): string {
  const { subs, channels, withMains, seats, frequency_hz, placeCount, exhaustive } = placement;
  const [from_hz = 0, to_hz = 0] = [frequency_hz[0], frequency_hz.at(-1)];
  const what = subs.map(({ id }) => id).join(', ');
  const heard =
    channels.length === 0
      ? 'by itself'
      : `on ${channels.join(' and ')}${withMains ? ' with the mains' : ' alone'}`;
  const range = `${show.frequency(Math.round(from_hz))} to ${show.frequency(Math.round(to_hz))}`;
  const tried = exhaustive ? 'all tried' : 'best pairs refined';
  return `${what} ${heard}, ${range}, seats ${seats.join(', ')}; ${placeCount} places allowed, ${tried}`;
}

function signed(value: number): string {
  return `${value < 0 ? '' : '+'}${value.toFixed(1)}`;
}

/** Keys of the JSON that other tools may rely on; told in docs/command-line.md. */
export function placementFigures(
  placement: RoomPlacement,
  setup: Pick<Setup, 'room'>,
): Readonly<Record<string, unknown>> {
  const figures = (candidate: PlacementCandidate & Partial<Pick<RoomCandidate, 'measured'>>) => ({
    subwoofers: Object.fromEntries(
      candidate.positions.map(({ x_m, y_m, z_m }, index) => {
        const { level_db = 0, delay_s = 0, inverted = false } = candidate.settings[index] ?? {};
        const figures = {
          x_m,
          y_m,
          z_m,
          level_db,
          delay_ms: delay_s * 1000,
          polarity: inverted ? 'inverted' : 'normal',
          forgiveness_m: candidate.forgiveness_m[index] ?? null,
          measured: candidate.measured?.[index] ?? false,
        };
        return [placement.subs[index]?.id ?? String(index), figures];
      }),
    ),
    cost_db: candidate.cost_db,
    flatness_db: candidate.flatness_db,
    seat_spread_db: candidate.spread_db,
    seat_variance_db2: candidate.variance_db2,
    level_dbspl: candidate.output_db + REFERENCE_PA_DB,
    best_in: candidate.bestIn,
    response: Object.fromEntries(
      placement.seats.map((seat, s) => [
        seat,
        Object.fromEntries(
          (placement.channels.length === 0 ? [''] : placement.channels).map((channel, c) => {
            const levels = candidate.levels_db[c * placement.seats.length + s] ?? [];
            return [
              channel === '' ? 'subwoofers' : channel,
              Array.from(levels, (level) => Number((level + REFERENCE_PA_DB).toFixed(2))),
            ];
          }),
        ),
      ]),
    ),
  });
  return {
    version: 1,
    room: setup.room.name,
    channels: placement.channels,
    with_mains: placement.withMains,
    seats: placement.seats,
    reference_seat: placement.referenceSeat,
    frequency_hz: placement.frequency_hz.map((f_hz) => Number(f_hz.toFixed(3))),
    places: placement.placeCount,
    exhaustive: placement.exhaustive,
    current: placement.current === null ? null : figures(placement.current),
    candidates: placement.candidates.map(figures),
    source: PLACEMENT_SOURCE,
    notes: placement.notes.map(({ message }) => message),
  };
}
