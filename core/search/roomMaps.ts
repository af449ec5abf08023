// From a room's field to the maps of a search: transfers from every allowed place, with each channel's drive in them; and the mains.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { Point3 } from '../acoustics/point.ts';
import { type FieldContext, noFieldNote } from '../field/context.ts';
import { boxAt, prepareRoomField } from '../field/roomField.ts';
import { addPressure, silence } from '../field/sums.ts';
import { mapOfBox } from './boxMap.ts';
import type { MovedSub } from './movedSubs.ts';
import type { JudgedChannels } from './roomChannels.ts';
import type { SearchedSub, SettingRanges, SubSetting } from './searchTask.ts';
import type { SubControls } from './subControls.ts';
import { drivenBy } from './sums.ts';
import { emptyMap, type InSlices, mapPointByPoint, type TransferMap } from './transferMap.ts';

/** One map for all subs that are alike in size and height. */
export function* rawMaps(
  context: FieldContext,
  moved: readonly MovedSub[],
  places: readonly (readonly Point3[])[],
): InSlices<readonly TransferMap[]> {
  const known = new Map<string, TransferMap>();
  const maps: TransferMap[] = [];
  for (const [index, { size, height_m }] of moved.entries()) {
    const key = JSON.stringify([size, height_m, places[index]?.length, places[index]?.[0]]);
    const map = known.get(key) ?? (yield* mapAt(context, places[index] ?? []));
    known.set(key, map);
    maps.push(map);
  }
  return maps;
}

function* mapAt(context: FieldContext, points: readonly Point3[]): InSlices<TransferMap> {
  const { fieldRoom, frequency_hz, seats } = context;
  const ears = seats.map(({ at }) => at);
  if (fieldRoom.shape.box !== null) {
    const box = (f_hz: number) => boxAt(fieldRoom, f_hz);
    return yield* mapOfBox(box, fieldRoom.medium, frequency_hz, ears, points);
  }
  const listening = prepareRoomField(fieldRoom, frequency_hz).listenAt(ears);
  return yield* mapPointByPoint(listening, frequency_hz, points, ears.length);
}

/** What the search may set of a sub, and what each place brings with it. */
export interface SubFreedom {
  readonly setting: SubSetting;
  readonly ranges: SettingRanges;
  /** By place of the map: a factor on the level, and a wait, < 0 for an advance. */
  readonly own: readonly { readonly gain_ratio: number; readonly wait_s: number }[];
}

/** Maps with the channels' drives in them, levels, delays and polarities that are searched for taken out. */
export function searchedSubs(
  context: FieldContext,
  moved: readonly MovedSub[],
  { channels }: JudgedChannels,
  controls: readonly SubControls[],
  raw: readonly TransferMap[],
  freedoms: readonly SubFreedom[],
): readonly SearchedSub[] {
  const made: { readonly of: TransferMap; readonly drives: string; readonly map: TransferMap }[] =
    [];
  const count = context.frequency_hz.length;
  const ones = { re: new Float64Array(count).fill(1), im: new Float64Array(count) };
  return moved.flatMap(({ id }, index): readonly SearchedSub[] => {
    const [of, control, freedom] = [raw[index], controls[index], freedoms[index]];
    if (of === undefined || control === undefined || freedom === undefined) return [];
    const neutral = inverse(drivenBy({ drive: ones, map: of }, control.setting));
    const drives = channels.map((channel) => multiplied(channel.moved[index] ?? ones, neutral));
    const key = JSON.stringify([
      drives.map(({ re, im }) => [[...re], [...im]]),
      freedom.own[0],
      freedom.own.at(-1),
    ]);
    const known = made.find((one) => one.of === of && one.drives === key)?.map;
    const map =
      known ?? withDrives(of, drives, freedom.own, context.fieldRoom.medium.density_kg_m3);
    made.push({ of, drives: key, map });
    return [{ id, map, drive: ones, setting: freedom.setting, ranges: freedom.ranges }];
  });
}

function inverse({ re, im }: ComplexResponse): ComplexResponse {
  const size = re.map((x, i) => x * x + (im[i] ?? 0) ** 2);
  return { re: re.map((x, i) => x / (size[i] ?? 1)), im: im.map((y, i) => -y / (size[i] ?? 1)) };
}

function multiplied(a: ComplexResponse, b: ComplexResponse): ComplexResponse {
  return {
    re: a.re.map((re, i) => re * (b.re[i] ?? 0) - (a.im[i] ?? 0) * (b.im[i] ?? 0)),
    im: a.re.map((re, i) => re * (b.im[i] ?? 0) + (a.im[i] ?? 0) * (b.re[i] ?? 0)),
  };
}

/** p = G · 4πA/(jωρ) for every channel and seat: as many seats again for each channel. */
function withDrives(
  of: TransferMap,
  drives: readonly ComplexResponse[],
  own: SubFreedom['own'],
  density_kg_m3: number,
): TransferMap {
  const count = of.frequency_hz.length;
  const map = emptyMap(of.frequency_hz, of.points, of.seatCount * drives.length);
  const [aRe, aIm] = [new Float64Array(count), new Float64Array(count)];
  for (let point = 0; point < of.points.length; point++) {
    const { gain_ratio, wait_s } = own[point] ?? { gain_ratio: 1, wait_s: 0 };
    for (let channel = 0; channel < drives.length; channel++) {
      const drive = drives[channel] as ComplexResponse;
      for (let f = 0; f < count; f++) {
        const f_hz = of.frequency_hz[f] as number;
        const scale = (2 * gain_ratio) / (f_hz * density_kg_m3);
        const angle = -2 * Math.PI * f_hz * wait_s;
        const [cos, sin] = [scale * Math.cos(angle), scale * Math.sin(angle)];
        const [re, im] = [drive.re[f] as number, drive.im[f] as number];
        aRe[f] = re * cos - im * sin;
        aIm[f] = re * sin + im * cos;
      }
      for (let seat = 0; seat < of.seatCount; seat++) {
        const from = (point * of.seatCount + seat) * count;
        const to = (point * map.seatCount + channel * of.seatCount + seat) * count;
        for (let f = 0; f < count; f++) {
          const [gRe, gIm] = [of.re[from + f] as number, of.im[from + f] as number];
          map.re[to + f] = gRe * (aIm[f] as number) + gIm * (aRe[f] as number);
          map.im[to + f] = -(gRe * (aRe[f] as number) - gIm * (aIm[f] as number));
        }
      }
    }
  }
  return map;
}

/** What stays, at each seat for the first channel, at each for the next … */
export function fixedAtSeats(
  context: FieldContext,
  { channels }: JudgedChannels,
): readonly ComplexResponse[] {
  const { fieldRoom, frequency_hz, seats } = context;
  const listening = prepareRoomField(fieldRoom, frequency_hz).listenAt(seats.map(({ at }) => at));
  const heard = new Map<string, readonly ComplexResponse[]>();
  return channels.flatMap(({ fixed }) => {
    const sums = seats.map(() => silence(frequency_hz.length));
    for (const drive of fixed) {
      if (noFieldNote(context, drive.source) !== null) continue;
      const transfers = heard.get(drive.source.id) ?? listening(drive.source.at);
      heard.set(drive.source.id, transfers);
      sums.forEach((sum, seat) => {
        const transfer = transfers[seat];
        if (transfer)
          addPressure(sum, transfer, drive, frequency_hz, fieldRoom.medium.density_kg_m3);
      });
    }
    return sums;
  });
}
