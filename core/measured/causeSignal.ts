// Hypotheses about the signal: polarity, delays and levels that are not what the file says, loudspeakers on another one's wire.

import type { Room } from '../../schema/model/room.ts';
import { type PlacedSource, placedSources } from '../parts/referenceSeat.ts';
import { sourcePath } from '../rules/places.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { settingKey } from '../signal/ownDelay.ts';
import { stageDelay_s, type TracedPath, trace } from '../signal/traced.ts';
import { evenly, type Hypothesis } from './causeHypothesis.ts';

/** Beyond this a delay is a mistake of another kind. Common practice, no source. */
const DELAY_S = 0.01;
const LEVEL_DB = 10;
/** A pair stands side by side. */
const PAIR = { most_y_m: 0.5, least_x_m: 0.5 } as const;

export function signalHypotheses(room: Room, heard: ReadonlySet<string>): readonly Hypothesis[] {
  const { paths } = trace(room);
  const sources = placedSources(room).filter(({ id }) => heard.has(id));
  return [
    ...swapped(room, heard),
    ...ports(room, sources),
    ...sources.map((source) => turned(room, source.id, paths)),
    ...undialled(room, paths, heard),
    ...sources.flatMap(({ id }) => [late(room, id), louder(room, id)]),
  ];
}

function swapped(room: Room, heard: ReadonlySet<string>): readonly Hypothesis[] {
  const mains = placedSources(room).filter(({ isSubwoofer }) => !isSubwoofer);
  return mains.flatMap((one, index) =>
    mains.slice(index + 1).flatMap((other): readonly Hypothesis[] => {
      const isPair =
        one.gearId === other.gearId &&
        Math.abs(one.at.y_m - other.at.y_m) <= PAIR.most_y_m &&
        PAIR.least_x_m <= Math.abs(one.at.x_m - other.at.x_m);
      if (!isPair || !(heard.has(one.id) || heard.has(other.id))) return [];
      const places = new Map([
        [one.id, other.at],
        [other.id, one.at],
      ]);
      const name = `${one.id} and ${other.id} swapped`;
      return [
        {
          kind: 'swapped',
          key: `swapped ${one.id} ${other.id}`,
          path: ['speakers', one.id],
          parameters: [],
          variant: () => ({ places }),
          sources: [one.id, other.id],
          name,
          message: () =>
            `${one.id} and ${other.id} seem to be swapped: what is meant for one comes out of the other`,
          fix: () => null,
        },
      ];
    }),
  );
}

/** What is meant for one main comes out of another, which gets its own besides. */
function ports(room: Room, sources: readonly PlacedSource[]): readonly Hypothesis[] {
  const mains = placedSources(room).filter(({ isSubwoofer }) => !isSubwoofer);
  return sources
    .filter(({ isSubwoofer }) => !isSubwoofer)
    .flatMap((one) =>
      mains
        .filter(({ id }) => id !== one.id)
        .map(
          (other): Hypothesis => ({
            kind: 'port',
            key: `port ${one.id} ${other.id}`,
            path: ['speakers', one.id],
            parameters: [],
            variant: () => ({ places: new Map([[one.id, other.at]]) }),
            sources: [one.id],
            name: `${one.channel ?? one.id} on the wire to ${other.id}`,
            message: () =>
              `What is meant for ${one.id} seems to come out of ${other.id}: look at the ports and wires of both`,
            fix: () => null,
          }),
        ),
    );
}

function turned(room: Room, id: string, paths: readonly TracedPath[]): Hypothesis {
  const stage = paths
    .filter(({ target }) => target === id)
    .flatMap(({ stages }) => stages)
    .find(({ kind, control }) => kind === 'polarity' && control?.kind === 'polarity');
  const path = stage?.settingPath ?? sourcePath(room, id);
  const now = stage?.value?.kind === 'choice' ? stage.value.choice : 'normal';
  const other = now === 'inverted' ? 'normal' : 'inverted';
  return {
    kind: 'polarity',
    key: `polarity ${id}`,
    path,
    parameters: [],
    variant: () => ({ turned: new Set([id]) }),
    sources: [id],
    name: `the polarity of ${id} turned over`,
    message: () => `The polarity of ${id} seems to be turned over`,
    fix: () =>
      stage === undefined
        ? null
        : {
            title: `Write that the polarity is ${other}`,
            edits: [{ do: 'set', path, value: other }],
            safe: false,
          },
  };
}

/** Delays and levels in the file that nobody dialled in: nothing in these is free. */
function undialled(
  room: Room,
  paths: readonly TracedPath[],
  heard: ReadonlySet<string>,
): readonly Hypothesis[] {
  const settings = new Map(room.settings.map((of) => [of.device, of]));
  const stages = new Map<
    string,
    { readonly stage: GovernedStage; readonly targets: Set<string> }
  >();
  for (const { stages: own, target } of paths) {
    for (const stage of own) {
      if (stage.value === null) continue;
      const one = stages.get(settingKey(stage)) ?? { stage, targets: new Set<string>() };
      stages.set(settingKey(stage), one);
      one.targets.add(target);
    }
  }
  return [...stages.values()].flatMap(({ stage, targets: all }): readonly Hypothesis[] => {
    const targets = [...all];
    const { value, settingPath, kind } = stage;
    if (value === null || settingPath === null || !targets.some((id) => heard.has(id))) return [];
    const delay_s = kind === 'delay' ? stageDelay_s(stage, settings.get(stage.device)) : null;
    const level_db = value.kind === 'level' ? value.level_db : null;
    const what = delay_s ? 'delay' : level_db ? 'level' : null;
    if (what === null) return [];
    const by = new Map(targets.map((id) => [id, -(delay_s || level_db || 0)]));
    const whom = targets.join(', ');
    return [
      {
        kind: what,
        key: `${what} ${targets.length === 1 ? whom : settingKey(stage)}`,
        path: settingPath,
        parameters: [],
        variant: () => (what === 'delay' ? { late_s: by } : { gain_db: by }),
        sources: targets,
        name: `the ${what} of ${value.told} for ${whom} not dialled in`,
        message: () => `The ${what} of ${value.told} for ${whom} seems not to be dialled in`,
        fix: () => null,
      },
    ];
  });
}

function late(room: Room, id: string): Hypothesis {
  return {
    kind: 'delay',
    key: `delay ${id}`,
    path: sourcePath(room, id),
    // A millisecond is a twelfth of a period at 80 Hz.
    parameters: [{ from: -DELAY_S, to: DELAY_S, scan: evenly(-DELAY_S, DELAY_S, 21) }],
    variant: ([late_s = 0]) => ({ late_s: new Map([[id, late_s]]) }),
    sources: [id],
    name: `another delay of ${id}`,
    message: ([late_s = 0], show) =>
      `${id} seems to be delayed by ${show.time(Math.abs(late_s))} ${late_s < 0 ? 'less' : 'more'} than the file says`,
    fix: () => null,
  };
}

function louder(room: Room, id: string): Hypothesis {
  return {
    kind: 'level',
    key: `level ${id}`,
    path: sourcePath(room, id),
    parameters: [{ from: -LEVEL_DB, to: LEVEL_DB, scan: evenly(-LEVEL_DB, LEVEL_DB, 9) }],
    variant: ([gain_db = 0]) => ({ gain_db: new Map([[id, gain_db]]) }),
    sources: [id],
    name: `another level of ${id}`,
    message: ([gain_db = 0], show) =>
      `${id} seems to be ${show.level(Math.abs(gain_db))} ${gain_db < 0 ? 'quieter' : 'louder'} than the file says`,
    fix: () => null,
  };
}
