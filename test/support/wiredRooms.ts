// Wired rooms in SI for tests of the signal: gear drawn by arrows as in a gear file, wiring and settings told in a line. All invented.

import type { Control, Gear, GearPath, Steps } from '../../schema/model/gear.ts';
import type {
  Connection,
  Device,
  DeviceSettings,
  Room,
  SettingValue,
} from '../../schema/model/room.ts';
import {
  box,
  EMPTY_ROOM,
  gear,
  point,
  roomWith,
  seat,
  spaceWith,
  speaker,
  subwoofer,
} from './rooms.ts';

/** `in -> level -> driver` as a path of a gear file. */
export function drawn(arrows: string): GearPath {
  const parts = arrows.split('->').map((part) => part.trim());
  return { from: parts[0] ?? '', stages: parts.slice(1, -1), to: parts.at(-1) ?? '' };
}

/** `desk.main_left -> sub.in_left`, one a line. */
export function wires(...lines: readonly string[]): readonly Connection[] {
  return lines.map((line, index) => {
    const [from = '', to = ''] = line.split('->').map((end) => end.trim());
    return { index, from: portOf(from), to: portOf(to) };
  });
}

function portOf(text: string): Connection['from'] {
  const dot = text.indexOf('.');
  return { device: text.slice(0, dot), port: text.slice(dot + 1) };
}

export function device(id: string, model: Gear | null, channels: Device['channels'] = []): Device {
  return { id, gear: model, gearId: model?.id ?? null, channels };
}

/** Steps from choices, or from a least, a greatest and a step. */
export function choices(...values: readonly number[]): Steps {
  return { min: null, max: null, step: null, choices: values };
}
export function range(min: number | null, max: number | null, step: number | null): Steps {
  return { min, max, step, choices: null };
}

type Told = SettingValue extends infer One
  ? One extends SettingValue
    ? Omit<One, 'control' | 'port' | 'set' | 'path'>
    : never
  : never;

/** Settings of one device; keys are `control`, `port:control` or `set/control`. */
export function settings(
  id: string,
  values: Readonly<Record<string, Told>>,
  sampleRate_hz: number | null = null,
): DeviceSettings {
  return {
    device: id,
    sampleRate_hz,
    values: Object.entries(values).map(([key, told]): SettingValue => {
      const [, port, set, control = key] = /^(?:([^:/]+):|([^:/]+)\/)?([^:/]+)$/.exec(key) ?? [];
      const below = port ? ['ports', port] : set ? ['sets', set] : [];
      const path = ['settings', id, ...below, control];
      return { ...told, control, port: port ?? null, set: set ?? null, path };
    }),
  };
}

export function ms(time_ms: number): Told {
  return { kind: 'delay', delay_s: time_ms / 1000, told: `${time_ms} ms` };
}
export function samples(count: number, rate_hz: number): Told {
  return { kind: 'delay', delay_s: count / rate_hz, told: `${count} samples` };
}
export function metres(length_m: number): Told {
  return { kind: 'length', length_m, told: `${length_m} m` };
}
export function crossover(frequency_hz: number, slope_db_oct = 24): Told {
  const told = `{ frequency: ${frequency_hz} Hz, slope: ${slope_db_oct} dB/oct }`;
  return { kind: 'filter', frequency_hz, slope_db_oct, told };
}
export function choice(word: string): Told {
  return { kind: 'choice', choice: word, told: word };
}
export function decibels(level_db: number): Told {
  return { kind: 'level', level_db, told: `${level_db} dB` };
}
export function volts(input_v: number, told: string): Told {
  return { kind: 'voltage', input_v, told };
}
export const BYPASS: Told = { kind: 'bypass', told: 'bypass' };

/** +18 dBu: 0.7746 V by 10^(18/20). */
export const DBU_18_V = 0.7745966692 * 10 ** (18 / 20);

export const DELAY: Control = {
  name: 'delay',
  stages: ['delay'],
  eachPort: true,
  kind: 'delay',
  toldAs: { as: 'time' },
  delay_s: range(null, 0.025, 0.00005),
};

export const CROSSOVER: Control = {
  name: 'crossover',
  stages: ['high_pass', 'low_pass'],
  eachPort: false,
  kind: 'filter',
  family: 'linkwitz_riley',
  frequency_hz: range(40, 130, 5),
  slope_db_oct: choices(12, 24),
  bypass: true,
};

export const POLARITY: Control = {
  name: 'polarity',
  stages: ['polarity'],
  eachPort: false,
  kind: 'polarity',
  choices: ['normal', 'inverted'],
};

/** A stereo source; its full level is +18 dBu. */
export const SOURCE: Gear = gear('quay', 'interface', {
  outputs: ['main_left', 'main_right', 'lfe'],
  fullLevelOutput_v: DBU_18_V,
  latency_s: [{ port: '*', latency_s: 0 }],
  power: { idle_w: 20, rated_w: 30, inrush_a: null },
});

/** A powered main with a natural fourth-order roll-off, −6 dB at 65 Hz. */
export const MAIN: Gear = gear('heath', 'loudspeaker', {
  inputs: ['in'],
  paths: [drawn('in -> level -> driver')],
  lowEnd: {
    minus6db_hz: 65,
    slope_db_oct: 24,
    kind: 'vented',
    protection: null,
    responseFile: null,
  },
  fullLevelInput_v: DBU_18_V,
  latency_s: [{ port: 'driver', latency_s: 0.0011 }],
  power: { idle_w: 15, rated_w: 80, inrush_a: 20 },
  controls: [
    {
      name: 'level',
      stages: ['level'],
      eachPort: false,
      kind: 'level',
      level_db: range(-20, 0, 0.5),
    },
  ],
});

/** A subwoofer with bass management for stereo and a delay for each port. */
export const SUB: Gear = gear('moor', 'subwoofer', {
  inputs: ['in_left', 'in_right', 'in_lfe'],
  outputs: ['out_left', 'out_right'],
  buses: [{ name: 'bass', sum_db: -6 }],
  paths: [
    drawn('in_left -> input_sensitivity -> high_pass -> delay -> out_left'),
    drawn('in_right -> input_sensitivity -> high_pass -> delay -> out_right'),
    drawn('in_left -> input_sensitivity -> low_pass -> bass'),
    drawn('in_right -> input_sensitivity -> low_pass -> bass'),
    drawn('in_lfe -> lfe_gain -> lfe_low_pass -> bass'),
    drawn('bass -> delay -> polarity -> level -> driver'),
  ],
  lowEnd: {
    minus6db_hz: 20,
    slope_db_oct: 24,
    kind: 'vented',
    protection: null,
    responseFile: null,
  },
  highEnd: { minus6db_hz: 200, slope_db_oct: 12 },
  latency_s: [{ port: '*', latency_s: 0.0008 }],
  power: { idle_w: 24, rated_w: 350, inrush_a: 30 },
  controls: [
    {
      name: 'input_sensitivity',
      stages: ['input_sensitivity'],
      eachPort: false,
      kind: 'sensitivity',
      input_v: choices(DBU_18_V * 10 ** (-14 / 20), DBU_18_V * 10 ** (-8 / 20), DBU_18_V),
    },
    CROSSOVER,
    POLARITY,
    DELAY,
    {
      name: 'level',
      stages: ['level'],
      eachPort: false,
      kind: 'level',
      level_db: range(-30, 10, 0.25),
    },
    {
      name: 'lfe_gain',
      stages: ['lfe_gain'],
      eachPort: false,
      kind: 'level',
      level_db: choices(0, 10),
    },
    {
      name: 'lfe_low_pass',
      stages: ['lfe_low_pass'],
      eachPort: false,
      kind: 'filter',
      family: 'linkwitz_riley',
      frequency_hz: choices(120),
      slope_db_oct: choices(24),
      bypass: true,
    },
  ],
});

/** What is dialled in on the subwoofer where a test says nothing else. */
export const SUB_SETTINGS: Parameters<typeof settings>[1] = {
  input_sensitivity: volts(DBU_18_V, '18 dBu'),
  crossover: crossover(75),
  polarity: choice('normal'),
  'driver:delay': ms(0),
  'out_left:delay': ms(0),
  'out_right:delay': ms(0),
};

/** The speed of sound of the hand calculations. */
export const C_M_S = 343;

/**
 * Source, subwoofer, two mains; mains 2.15 m and the subwoofer 3.40 m from the seat, all on the seat's height, so that the
 * distances can be checked by hand.
 */
export function subRoom(parts: Partial<Room> = {}): Room {
  const side_m = 2.15 / 2;
  const front_m = Math.sqrt(2.15 ** 2 - side_m ** 2);
  return roomWith({
    space: spaceWith({ shape: box(5, 8, 2.8) }),
    air: { ...EMPTY_ROOM.air, speedOfSound_m_s: C_M_S },
    seats: [seat('mix', point(2.5, 4, 1.2))],
    speakers: [
      speaker('left', 'L', point(2.5 - side_m, 4 - front_m, 1.2), { gear: MAIN, gearId: MAIN.id }),
      speaker('right', 'R', point(2.5 + side_m, 4 - front_m, 1.2), { gear: MAIN, gearId: MAIN.id }),
    ],
    subwoofers: [subwoofer('sub', point(2.5, 0.6, 1.2), { gear: SUB, gearId: SUB.id })],
    devices: [device('desk', SOURCE)],
    wiring: wires(
      'desk.main_left -> sub.in_left',
      'desk.main_right -> sub.in_right',
      'sub.out_left -> left.in',
      'sub.out_right -> right.in',
    ),
    settings: [settings('sub', SUB_SETTINGS)],
    ...parts,
  });
}

/** That room with other settings of its subwoofer. */
export function subRoomWith(
  values: Parameters<typeof settings>[1],
  parts: Partial<Room> = {},
): Room {
  return subRoom({ settings: [settings('sub', { ...SUB_SETTINGS, ...values })], ...parts });
}
