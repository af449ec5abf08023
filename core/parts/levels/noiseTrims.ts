// Noise-relevant trims: gain that is taken away late and given early, so that level and clip points stay and noise falls.

import type { Steps } from '../../../schema/model/gear.ts';
import { type Path, pathText } from '../../../schema/model/path.ts';
import type { GainPoint } from '../../levelFigures.ts';
import type { NoiseSource, NoiseTrim, TrimPlace } from '../../noiseFigures.ts';
import type { GovernedStage } from '../../signal/governing.ts';
import { grouped } from '../../signal/grouped.ts';
import type { TracedPath } from '../../signal/traced.ts';
import { memoLast, memoNamed } from '../memo.ts';
import { type Driven, leading } from './driven.ts';
import { controlIndex, deviceAt, type Gears, type HeardNoise, sum_db } from './noise.ts';

/** Less is not worth a turn: common practice, no source. */
const WORTH_DB = 0.5;

/** A level on the way whose control is known. */
interface Trim {
  readonly device: string;
  readonly value_db: number;
  readonly steps: Steps;
  readonly place: TrimPlace;
}

/** A worker: the best for each loudspeaker and set; those that save less than half a decibel are left out. */
export function createNoiseTrims(): (
  heard: readonly HeardNoise[],
  ways: readonly Driven[],
  gears: Gears,
) => readonly NoiseTrim[] {
  const trimsOf = memoNamed(bestTrim);
  const heardFrom = memoLast(heardFromSettings);
  return (heard, ways, gears) => {
    const hung = heardFrom(...ways.map(({ path }) => path));
    return leading(ways).flatMap((way): readonly NoiseTrim[] => {
      const { target, set, isLfe } = way.path;
      const own = heard.find((one) => one.target === target && one.set === set);
      if (own === undefined || isLfe) return [];
      // Of a subwoofer alone the control has nothing to spare: all mains would have to follow.
      const surplus_db = own.surplus_db ?? 0;
      return trimsOf(`${target}\n${set}`, way, own.sources, surplus_db, gears, hung);
    });
  };
}

/** Empty or one. */
function bestTrim(
  way: Driven,
  noise: readonly NoiseSource[],
  surplus_db: number,
  gears: Gears,
  hung: HeardFrom,
): readonly NoiseTrim[] {
  const { target, set } = way.path;
  const trims = way.path.stages.flatMap(trimOf);
  const found = trims.flatMap((late, index) => [
    ...trims
      .slice(0, index)
      .filter((early) => !isShared(early, way, hung))
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
function isShared({ place }: Trim, { path: { target, set } }: Driven, hung: HeardFrom): boolean {
  const others = hung.get(settingKey(set, place.path)) ?? [];
  return others.some((other) => other.target !== target);
}

/** The loudspeakers that hang on each setting of each set. */
type HeardFrom = ReadonlyMap<string, readonly { readonly target: string }[]>;

function heardFromSettings(...paths: readonly TracedPath[]): HeardFrom {
  const hung = paths.flatMap(({ target, set, stages }) =>
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
  gears: Gears,
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
function between_db(way: Driven, early: Trim, late: Trim, gears: Gears): number {
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
