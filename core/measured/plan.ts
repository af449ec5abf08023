// The plan of a session's takes: what each should have shown, as the file has it or in a variant of the room.
//
// Box rooms are worked out anew where a variant asks for it, with all transfers kept; rooms of other shapes take their transfers from
// the field that the Setup holds, so that no mesh is made here.

import type { Room } from '../../schema/model/room.ts';
import type { MeasuringSession, MeasuringTake } from '../../schema/model/sessions.ts';
import { type ComplexResponse, ONE } from '../acoustics/complex.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { drawnRoom, type FieldContext, fieldContext } from '../field/context.ts';
import { kept } from '../field/kept.ts';
import { areApart, isInside } from '../field/roomField.ts';
import { addPressure, levels_dbspl, phases_rad, silence } from '../field/sums.ts';
import { createTransfers } from '../field/transfers.ts';
import type { AirFigures, Setup } from '../setup.ts';
import { fieldTransfer } from './fieldTransfer.ts';
import { midLevel_db } from './midLevel.ts';
import { type TakeDrive, takeDrives } from './takeDrives.ts';
import { sessionAir, takeRoom } from './takeRoom.ts';
import type { Variant } from './variant.ts';

/** One take as planned. */
export interface PlannedTake {
  readonly take: MeasuringTake;
  readonly receiver: Point3;
  readonly drives: readonly TakeDrive[];
  /** Loudspeakers of it that are no subwoofers. */
  readonly mains: readonly TakeDrive[];
}

/** What a take should show. */
export interface Prediction {
  /** Of the first full-range loudspeaker, else of the first subwoofer; null where it cannot be known. */
  readonly arrival_s: number | null;
  readonly polarity: 'upright' | 'inverted' | 'undecided';
  /** By frequency of the grid, dB SPL; null where the room has no field there. */
  readonly level_db: Float64Array | null;
  /** Against the moment of playing, latencies and flight included; null where the level is. */
  readonly phase_rad: Float64Array | null;
  /** Mean level from 500 Hz to 2 kHz of full-range loudspeakers, dB SPL; null for others. */
  readonly mid_db: number | null;
}

export interface SessionPlan {
  readonly session: MeasuringSession;
  readonly room: Room;
  readonly air: AirFigures;
  readonly frequency_hz: readonly number[];
  /** Takes that can be planned: their microphone's place and what was heard are known. */
  readonly takes: readonly PlannedTake[];
  readonly isBox: boolean;
  /** Gear and gains do not tell how loud each loudspeaker is: levels are matched ones. */
  readonly isMatched: boolean;
  /** In the order of `takes`. */
  readonly predict: (variant: Variant) => readonly Prediction[];
  /** Levels in the bass alone. */
  readonly predictBass: (variant: Variant) => readonly Prediction[];
  /** The same without levels in the bass, which are dear. */
  readonly predictSharp: (variant: Variant) => readonly Prediction[];
}

/**
 * @param frequency_hz ascending; outside boxes the field's own grid, whatever is asked for
 * @param levelsOf how else levels in the bass are worked out, in rooms of any shape and on the grid that is asked for
 */
export function sessionPlan(
  setup: Setup,
  session: MeasuringSession,
  frequency_hz: readonly number[],
  levelsOf?: (takes: readonly PlannedTake[]) => CurvesOf,
): SessionPlan {
  const { room } = setup;
  const air = sessionAir(room, setup.air, session.temperature_k);
  const context = fieldContext({ room, air }, frequency_hz);
  const isBox = context !== null && context.fieldRoom.shape.box !== null;
  const grid_hz = isBox || levelsOf ? frequency_hz : (setup.field?.frequency_hz ?? frequency_hz);
  const takes = session.takes.flatMap((take) => planned(room, take, grid_hz) ?? []);
  const curvesOf =
    levelsOf?.(takes) ??
    (isBox
      ? boxLevels({ room, air }, context, takes)
      : fieldLevels(setup, takes, grid_hz, air.density_kg_m3));
  const sharp = (one: PlannedTake, variant: Variant) => ({
    ...timing(one, variant, air.speedOfSound_m_s),
    mid_db: midLevel_db(setup, one, variant, receiverIn(one, variant)),
  });
  return {
    session,
    room,
    air,
    frequency_hz: grid_hz,
    takes,
    isBox,
    isMatched: setup.field?.level.kind !== 'absolute',
    predict: (variant) =>
      takes.map((one, index) => ({
        ...sharp(one, variant),
        ...(curvesOf(one, index, variant) ?? NO_CURVES),
      })),
    predictBass: (variant) =>
      takes.map((one, index) => ({ ...NO_SHARP, ...(curvesOf(one, index, variant) ?? NO_CURVES) })),
    predictSharp: (variant) => takes.map((one) => ({ ...sharp(one, variant), ...NO_CURVES })),
  };
}

function planned(
  room: Room,
  take: MeasuringTake,
  frequency_hz: readonly number[],
): PlannedTake | null {
  if (isFromAfar(room, take)) return null;
  const seatAt = room.seats.find(({ id }) => id === take.seat)?.at ?? null;
  const receiver = take.at ?? seatAt;
  if (receiver === null) return null;
  const drives = takeDrives(takeRoom(room, take), take, frequency_hz);
  if (drives.length === 0) return null;
  const mains = drives.filter(({ drive: { source } }) => !source.isSubwoofer);
  return { take, receiver, drives, mains };
}

/** A subwoofer heard from a spot where it could stand, itself at the seat: no take of this set-up. */
function isFromAfar({ subwoofers }: Room, { seat, at, sounding }: MeasuringTake): boolean {
  const isBass =
    0 < sounding.length && sounding.every((id) => subwoofers.some((sub) => sub.id === id));
  return seat === null && at !== null && isBass;
}

/** Where the microphone stood, if a seat lies otherwise: points about a seat are measured from it. */
export function receiverIn({ take, receiver }: PlannedTake, { seatOffset_m }: Variant): Point3 {
  if (seatOffset_m === undefined || take.seat !== seatOffset_m.seat) return receiver;
  const [x, y, z] = seatOffset_m.by_m;
  return { x_m: receiver.x_m + x, y_m: receiver.y_m + y, z_m: receiver.z_m + z };
}

export function placeOf({ drive: { source } }: TakeDrive, { places }: Variant): Point3 {
  return places?.get(source.id) ?? source.at;
}

/** Nearer than this a quarter turn to the middle between both, a phase control leaves no polarity to be seen. */
const CLEAR_RAD = Math.PI / 3;

function timing(
  one: PlannedTake,
  variant: Variant,
  speedOfSound_m_s: number,
): Pick<Prediction, 'arrival_s' | 'polarity'> {
  const isBass = one.mains.length === 0;
  const heard = (isBass ? one.drives : one.mains).map((drive) => {
    const { id } = drive.drive.source;
    const away_m = distance_m(placeOf(drive, variant), receiverIn(one, variant));
    const flight_s = away_m / (speedOfSound_m_s * (variant.speed_ratio ?? 1));
    const late_s = (variant.late_s?.get(id) ?? 0) + (isBass ? drive.control.late_s : 0);
    return { drive, arrival_s: drive.way_s === null ? null : flight_s + drive.way_s + late_s };
  });
  const first = heard.reduce((a, b) =>
    (b.arrival_s ?? Number.POSITIVE_INFINITY) < (a.arrival_s ?? Number.POSITIVE_INFINITY) ? b : a,
  );
  const { drive } = first;
  const turns = isBass ? drive.control.start_rad / Math.PI : 0;
  const isTurned = variant.turned?.has(drive.drive.source.id) ?? false;
  const isOdd = Math.abs(Math.round(turns)) % 2 === 1;
  const isClear = Math.abs(turns - Math.round(turns)) * Math.PI <= CLEAR_RAD;
  const isInverted = (drive.isInverted !== isTurned) !== isOdd;
  return {
    arrival_s: heard.some(({ arrival_s }) => arrival_s === null) ? null : first.arrival_s,
    polarity: !isClear ? 'undecided' : isInverted ? 'inverted' : 'upright',
  };
}

type Curves = Pick<Prediction, 'level_db' | 'phase_rad'>;
/** Levels and phases of a take in a variant; null where the room has no field there. */
export type CurvesOf = (one: PlannedTake, index: number, variant: Variant) => Curves | null;

const NO_CURVES: Curves = { level_db: null, phase_rad: null };
const NO_SHARP = { arrival_s: null, polarity: 'undecided', mid_db: null } as const;

/** Pressure of a take from the room's transfers, with what a variant does to each loudspeaker's signal. */
export function curves(
  { drives }: PlannedTake,
  variant: Variant,
  frequency_hz: readonly number[],
  density_kg_m3: number,
  transferOf: (drive: TakeDrive) => ComplexResponse | null,
): Curves | null {
  const sum = silence(frequency_hz.length);
  for (const one of drives) {
    const transfer = transferOf(one);
    if (transfer === null) return null;
    const { id } = one.drive.source;
    const pressure_pa = altered(
      one.drive.pressure_pa,
      frequency_hz,
      (variant.turned?.has(id) ? -1 : 1) * 10 ** ((variant.gain_db?.get(id) ?? 0) / 20),
      variant.late_s?.get(id) ?? 0,
    );
    addPressure(sum, transfer, { ...one.drive, pressure_pa }, frequency_hz, density_kg_m3);
  }
  return { level_db: levels_dbspl(sum), phase_rad: phases_rad(sum) };
}

function altered(
  { re, im }: ComplexResponse,
  frequency_hz: readonly number[],
  gain_ratio: number,
  late_s: number,
): ComplexResponse {
  if (gain_ratio === ONE.re && late_s === 0) return { re, im };
  const turn = (i: number) => -2 * Math.PI * (frequency_hz[i] ?? 0) * late_s;
  return {
    re: re.map((x, i) => gain_ratio * (x * Math.cos(turn(i)) - (im[i] ?? 0) * Math.sin(turn(i)))),
    im: im.map((y, i) => gain_ratio * ((re[i] ?? 0) * Math.sin(turn(i)) + y * Math.cos(turn(i)))),
  };
}

function boxLevels(
  about: Pick<Setup, 'room' | 'air'>,
  context: FieldContext,
  takes: readonly PlannedTake[],
): CurvesOf {
  const transfers = createTransfers();
  const rooms = kept<FieldContext['fieldRoom']>(40);
  const { frequency_hz } = context;
  return (one, index, variant) => {
    const { size_m = [0, 0, 0], speed_ratio = 1 } = variant;
    const other = JSON.stringify([size_m, speed_ratio]);
    const fieldRoom = rooms(other, () =>
      other === '[[0,0,0],1]'
        ? context.fieldRoom
        : drawnRoom(about, context.fieldRoom, {
            size_m,
            speed_ratio,
            absorption_ratio: 1,
            offset_m: () => [0, 0, 0],
          }),
    );
    const receivers = distinct(takes.map((take) => receiverIn(take, variant)));
    const ear = receiverIn(takes[index] ?? one, variant);
    const at = receivers.findIndex((point) => distance_m(point, ear) === 0);
    if (receivers.some((point) => !isInside(fieldRoom.shape, point))) return null;
    const keyed = { key: `${context.key}\n${other}`, make: () => fieldRoom, frequency_hz };
    return curves(one, variant, frequency_hz, about.air.density_kg_m3, (drive) => {
      const place = placeOf(drive, variant);
      const isUsable =
        isInside(fieldRoom.shape, place) && receivers.every((point) => areApart(point, place));
      return isUsable ? (transfers.between(keyed, receivers, place)[at] ?? null) : null;
    });
  };
}

export function distinct(points: readonly Point3[]): readonly Point3[] {
  return points.filter(
    (point, i) => points.findIndex((other) => distance_m(point, other) === 0) === i,
  );
}

/** From the field that is there: places that are some loudspeaker's, and seats. */
function fieldLevels(
  setup: Setup,
  takes: readonly PlannedTake[],
  frequency_hz: readonly number[],
  density_kg_m3: number,
): CurvesOf {
  const transferOf = fieldTransfer(setup, frequency_hz, density_kg_m3);
  return (one, _, variant) => {
    const { size_m, speed_ratio, decayTime_s, seatOffset_m } = variant;
    const isOther = size_m ?? speed_ratio ?? decayTime_s ?? seatOffset_m;
    if (isOther !== undefined || one.take.at !== null || takes.length === 0) return null;
    return curves(one, variant, frequency_hz, density_kg_m3, (drive) =>
      transferOf(placeOf(drive, variant), one.take.seat ?? ''),
    );
  };
}
