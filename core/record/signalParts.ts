// What of the gear, the wiring and the settings is part of the set-up.

import type { Gear } from '../../schema/model/gear.ts';
import type { Room, SettingValue } from '../../schema/model/room.ts';
import { byKey, type Plain } from './canonical.ts';

export function gearPart(room: Pick<Room, 'speakers' | 'subwoofers' | 'devices'>): Plain {
  const models = new Map<string, Gear>();
  for (const { gear } of [...room.speakers, ...room.subwoofers, ...room.devices])
    if (gear !== null) models.set(gear.id, gear);
  return {
    uses: byKey(
      [...room.speakers, ...room.subwoofers, ...room.devices],
      ({ id }) => id,
      (user) => ({
        model: user.gear?.id ?? user.gearId ?? 'unknown',
        item: 'item' in user ? user.item : null,
      }),
    ),
    models: byKey([...models.values()], ({ id }) => id, modelOf),
  };
}

/** What shapes the signal; what bounds it (levels, power, ranges and steps of controls) or says how it looks does not. */
function modelOf(gear: Gear): Plain {
  return {
    kind: gear.kind,
    ...endsOf(gear),
    input_v: gear.fullLevelInput_v,
    output_v: gear.fullLevelOutput_v,
    gain_db: gear.gain_db,
    latency: byKey(
      gear.latency_s,
      ({ port }) => port,
      ({ latency_s }) => ({ latency_s }),
    ),
    buses: byKey(
      gear.buses,
      ({ name }) => name,
      ({ sum_db }) => ({ sum_db }),
    ),
    paths: byKey(
      gear.paths,
      ({ from, stages, to }) => [from, ...stages, to].join('>'),
      () => true,
    ),
    families: byKey(
      gear.controls.filter(({ kind }) => kind === 'filter'),
      ({ name }) => name,
      (control) => (control.kind === 'filter' ? control.family : null),
    ),
  };
}

/** An end that a response file tells counts by the file's name: it is the same set-up before the file was read, and without it. */
function endsOf({ lowEnd, highEnd, responseFiles = [] }: Gear): { readonly [key: string]: Plain } {
  const named = responseFiles.map(({ of, file }) =>
    of.kind === 'control'
      ? ([`${of.control}/${of.choice}`, file] as const)
      : ([of.kind, file] as const),
  );
  const isNamed = (end: string): boolean => named.some(([what]) => what === end);
  return {
    responses: Object.fromEntries(named),
    lowEnd:
      isNamed('low_end') || lowEnd === null
        ? null
        : {
            minus6db_hz: lowEnd.minus6db_hz,
            slope_db_oct: lowEnd.slope_db_oct,
            kind: lowEnd.kind,
            protection: lowEnd.protection,
          },
    highEnd:
      isNamed('high_end') || highEnd === null
        ? null
        : { minus6db_hz: highEnd.minus6db_hz, slope_db_oct: highEnd.slope_db_oct },
  };
}

export function wiringPart(
  room: Pick<Room, 'wiring' | 'devices' | 'speakers' | 'subwoofers' | 'sets'>,
): Plain {
  return {
    wires: byKey(
      room.wiring,
      ({ from, to }) => `${from.device}.${from.port}>${to.device}.${to.port}`,
      () => true,
    ),
    channels: byKey(
      [...room.speakers, ...room.subwoofers],
      ({ id }) => id,
      ({ channel }) => channel,
    ),
    outputs: byKey(
      room.devices,
      ({ id }) => id,
      ({ channels }) =>
        byKey(
          channels,
          ({ port }) => port,
          ({ channel }) => channel,
        ),
    ),
    sets: byKey(
      room.sets,
      ({ id }) => id,
      ({ speakers, subwoofers }) =>
        byKey(
          [...speakers, ...subwoofers],
          (id) => id,
          () => true,
        ),
    ),
  };
}

export function settingsPart({ settings }: Pick<Room, 'settings'>): Plain {
  return byKey(
    settings,
    ({ device }) => device,
    ({ sampleRate_hz, values }) => ({
      sampleRate_hz,
      values: byKey(
        values,
        ({ control, port, set }) => [control, port ?? '', set ?? ''].join('/'),
        settingOf,
      ),
    }),
  );
}

function settingOf(value: SettingValue): Plain {
  switch (value.kind) {
    case 'filter':
      return { frequency_hz: value.frequency_hz, slope_db_oct: value.slope_db_oct };
    case 'bypass':
    case 'unknown':
      return { is: value.kind };
    case 'delay':
      return { delay_s: value.delay_s };
    case 'samples':
      return { count: value.count };
    case 'length':
      return { length_m: value.length_m };
    case 'level':
      return { level_db: value.level_db };
    case 'voltage':
      return { input_v: value.input_v };
    case 'phase':
      return { phase_rad: value.phase_rad };
    case 'choice':
      return { choice: value.choice };
    case 'eq':
      return byKey(
        value.bands,
        ({ name }) => name,
        ({ frequency_hz, gain_db, q }) => ({ frequency_hz, gain_db, q }),
      );
  }
}
