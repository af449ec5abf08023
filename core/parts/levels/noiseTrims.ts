// Noise-relevant trims: gain that is taken away late and given early, so that level and clip points stay and noise falls.

import type { Gear, Steps } from '../../../schema/model/gear.ts';
import { type Path, pathText } from '../../../schema/model/path.ts';
import type { Room } from '../../../schema/model/room.ts';
import type { Attenuation, GainPoint } from '../../levelFigures.ts';
import type { NoiseTrim, TrimPlace } from '../../noiseFigures.ts';
import type { GovernedStage } from '../../signal/governing.ts';
import { grouped } from '../../signal/grouped.ts';
import { type Driven, leading } from './driven.ts';
import { controlIndex, deviceAt, gearsOf, noiseSources, sum_db, surplusOf } from './noise.ts';

/** Less is not worth a turn: common practice, no source. */
const WORTH_DB = 0.5;

/** A level on the way whose control is known. */
interface Trim {
  readonly device: string;
  readonly value_db: number;
  readonly steps: Steps;
  readonly place: TrimPlace;
}

/** The best for each loudspeaker and set; those that save less than half a decibel are left out. */
export function noiseTrims(
  room: Pick<Room, 'speakers' | 'subwoofers' | 'devices'>,
  ways: readonly Driven[],
  attenuation: readonly Attenuation[],
): readonly NoiseTrim[] {
  const gears = gearsOf(room);
  const heardFrom = heardFromSettings(ways);
  return leading(ways).flatMap((way): readonly NoiseTrim[] => {
    const { target, set, isLfe } = way.path;
    // Of a subwoofer alone the control has nothing to spare: all mains would have to follow.
    const surplus_db = surplusOf(way, attenuation) ?? 0;
    if (isLfe) return [];
    const together = ways.filter(({ path }) => path.target === target && path.set === set);
    const noise = noiseSources(together, gears, attenuation);
    const trims = way.path.stages.flatMap(trimOf);
    const found = trims.flatMap((late, index) => [
      ...trims
        .slice(0, index)
        .filter((early) => !isShared(early, way, heardFrom))
        .map((early) => ({ early, late, most_db: between_db(way, early, late, gears) })),
      { early: null, late, most_db: surplus_db },
    ]);
    const worked = found.flatMap(({ early, late, most_db }): readonly NoiseTrim[] => {
      const by_db = movable_db(late, Math.min(most_db, early === null ? most_db : above_db(early)));
      if (!(0 < by_db)) return [];
      const lowered = new Set(
        pointsBetween(way, early, late, gears)
          .filter(({ kind }) => kind === 'output')
          .map(({ at }) => at),
      );
      const after = noise.map(({ at, level_dba }) =>
        lowered.has(at) ? level_dba - by_db : level_dba,
      );
      const saves_db = sum_db(noise.map(({ level_dba }) => level_dba)) - sum_db(after);
      if (!(WORTH_DB <= saves_db)) return [];
      return [{ target, set, late: late.place, early: early?.place ?? null, by_db, saves_db }];
    });
    return worked.toSorted((a, b) => b.saves_db - a.saves_db || a.by_db - b.by_db).slice(0, 1);
  });
}

function trimOf(stage: GovernedStage): readonly Trim[] {
  const { kind, device, control, value, settingPath } = stage;
  if ((kind !== 'level' && kind !== 'gain') || control?.kind !== 'level' || settingPath === null)
    return [];
  if (value !== null && value.kind !== 'level') return [];
  return [
    {
      device,
      value_db: value?.level_db ?? 0,
      steps: control.level_db,
      place: { device, control: control.name, path: settingPath },
    },
  ];
}

/** What is raised there is raised for other loudspeakers, too, which nothing turns down. */
function isShared(
  { place }: Trim,
  { path: { target, set } }: Driven,
  heardFrom: ReturnType<typeof heardFromSettings>,
): boolean {
  const hung = heardFrom.get(settingKey(set, place.path)) ?? [];
  return hung.some((other) => other.target !== target);
}

/** What is heard from each setting of each set. */
function heardFromSettings(ways: readonly Driven[]) {
  const hung = ways.flatMap(({ path: { target, set, stages } }) =>
    stages.flatMap(({ settingPath }) =>
      settingPath === null ? [] : [{ target, key: settingKey(set, settingPath) }],
    ),
  );
  return grouped(hung, ({ key }) => key);
}

function settingKey(set: string | null, path: Path): string {
  return `${set}\n${pathText(path)}`;
}

/** Points from the early trim's device (or the monitor control's) to the input of the late one's. */
function pointsBetween(
  way: Driven,
  early: Trim | null,
  late: Trim,
  gears: ReadonlyMap<string, Gear | null>,
): readonly GainPoint[] {
  const { points } = way.chain;
  const from =
    early === null
      ? controlIndex(way, gears)
      : points.findIndex(({ at, kind }) => kind === 'output' && deviceAt(at) === early.device);
  const to = points.findIndex(({ at, kind }) => kind === 'input' && deviceAt(at) === late.device);
  return from < 0 || to < from ? [] : points.slice(from, to + 1);
}

/** Margin of the points between; 0 where one of them is not known. */
function between_db(
  way: Driven,
  early: Trim,
  late: Trim,
  gears: ReadonlyMap<string, Gear | null>,
): number {
  const points = pointsBetween(way, early, late, gears);
  if (points.length === 0) return 0;
  // The input of a loudspeaker or amplifier takes as much more as its level is turned down.
  const isOpen = ({ at, kind }: GainPoint) =>
    kind === 'input' &&
    deviceAt(at) === late.device &&
    DRIVERS.has(gears.get(late.device)?.kind ?? '');
  return Math.min(
    ...points.filter((point) => !isOpen(point)).map(({ margin_db }) => margin_db ?? 0),
  );
}

const DRIVERS: ReadonlySet<string> = new Set(['loudspeaker', 'subwoofer', 'amplifier']);

/** What a control can still be turned up by. */
function above_db({ steps, value_db }: Trim): number {
  const top_db = steps.choices?.at(-1) ?? steps.max;
  return top_db === null ? 0 : top_db - value_db;
}

/** The most, within what is asked for, that the late control can really be turned down by. */
function movable_db({ steps, value_db }: Trim, most_db: number): number {
  const slack_db = 1e-6;
  if (steps.choices !== null)
    return Math.max(
      0,
      ...steps.choices
        .map((choice) => value_db - choice)
        .filter((by_db) => by_db <= most_db + slack_db),
    );
  const room_db = steps.min === null ? 0 : value_db - steps.min;
  const by_db = Math.min(most_db, room_db);
  return steps.step === null || steps.step <= 0
    ? by_db
    : Math.floor((by_db + slack_db) / steps.step) * steps.step;
}
