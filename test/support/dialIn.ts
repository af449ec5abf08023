// Dials advice into a room in SI: what the editor's fixes do to the text, done to the data, for tests that go round in a circle.

import type { SemanticEdit } from '../../core/finding.ts';
import type { Room, SettingValue } from '../../schema/model/room.ts';

/** The room after edits below `settings`; other edits are refused. */
export function dialledIn(room: Room, edits: readonly SemanticEdit[]): Room {
  return edits.reduce((before, edit) => {
    if (edit.do !== 'set' || edit.path[0] !== 'settings') throw new Error('settings only');
    return withSetting(before, edit.path, edit.value);
  }, room);
}

function withSetting(room: Room, path: readonly string[], text: string): Room {
  const [, device = '', ...rest] = path;
  const isBelow = rest[0] === 'ports' || rest[0] === 'sets';
  const port = rest[0] === 'ports' ? (rest[1] ?? null) : null;
  const set = rest[0] === 'sets' ? (rest[1] ?? null) : null;
  const [control = '', part] = isBelow ? rest.slice(2) : rest;
  const base = { control, port, set, path: path.slice(0, part ? -1 : undefined), told: text };
  const of = room.settings.find((one) => one.device === device) ?? {
    device,
    sampleRate_hz: null,
    values: [],
  };
  const isSame = (one: SettingValue) =>
    one.control === control && one.port === port && one.set === set;
  const before = of.values.find(isSame);
  const value: SettingValue =
    part && before?.kind === 'filter'
      ? { ...before, [part === 'slope' ? 'slope_db_oct' : 'frequency_hz']: Number.parseFloat(text) }
      : { ...base, ...settingOf(text) };
  const values = [...of.values.filter((one) => !isSame(one)), value];
  const others = room.settings.filter((one) => one.device !== device);
  return { ...room, settings: [...others, { ...of, values }] };
}

type Value = SettingValue extends infer One
  ? One extends SettingValue
    ? Omit<One, 'control' | 'port' | 'set' | 'path' | 'told'>
    : never
  : never;

/** The few spellings that advice uses. Samples count at 48 kHz. */
function settingOf(text: string): Value {
  const filter = /^\{ frequency: ([\d.]+) Hz, slope: ([\d.]+) dB\/oct \}$/.exec(text);
  if (filter) {
    return { kind: 'filter', frequency_hz: Number(filter[1]), slope_db_oct: Number(filter[2]) };
  }
  const [, digits, unit] = /^(-?[\d.]+) ?(ms|samples|m|dB|dBu|°)$/.exec(text) ?? [];
  const number = Number(digits);
  switch (unit) {
    case 'ms':
      return { kind: 'delay', delay_s: number / 1000 };
    case 'samples':
      return { kind: 'delay', delay_s: number / 48_000 };
    case 'm':
      return { kind: 'length', length_m: number };
    case 'dB':
      return { kind: 'level', level_db: number };
    case 'dBu':
      return { kind: 'voltage', input_v: Math.sqrt(0.6) * 10 ** (number / 20) };
    case '°':
      return { kind: 'phase', phase_rad: (number * Math.PI) / 180 };
    default:
      return { kind: 'choice', choice: text };
  }
}
