// The room as it was for one take: what was bypassed, what was set otherwise for it alone, and the session's own air.

import type { Control } from '../../schema/model/gear.ts';
import type { DeviceSettings, Room, SettingValue } from '../../schema/model/room.ts';
import type { MeasuringTake } from '../../schema/model/sessions.ts';
import { readQuantity } from '../../schema/quantity/read.ts';
import type { Dimension } from '../../schema/quantity/units.ts';
import { airPart } from '../parts/air.ts';
import type { AirFigures } from '../setup.ts';

/** What of a take says how the room was set. */
export type TakeChanges = Pick<MeasuringTake, 'bypassed' | 'changed'>;

/** The room with the stages that were bypassed taken out, and what was changed for the take laid over its settings. */
export function takeRoom(room: Room, { bypassed, changed }: TakeChanges): Room {
  if (bypassed.length === 0 && changed.length === 0) return room;
  const kept = room.settings.map((of) => ({
    ...of,
    values: of.values.filter(
      ({ control }) => !bypassed.includes(control) && !bypassed.includes(of.device),
    ),
  }));
  const things = [...room.devices, ...room.speakers, ...room.subwoofers];
  return {
    ...room,
    settings: changed.reduce<readonly DeviceSettings[]>((settings, { device, control, told }) => {
      const keys = control.split('.');
      const name = keys.at(-1) ?? control;
      const port = keys.length === 1 ? null : (keys.at(-2) ?? null);
      const gear = things.find(({ id }) => id === device)?.gear ?? null;
      const known = gear?.controls.find((one) => one.name === name) ?? null;
      const place = { control: name, port, set: null, path: ['settings', device, ...keys], told };
      return laidOver(settings, device, { ...place, ...meaningOf(told, known) });
    }, kept),
  };
}

function laidOver(
  settings: readonly DeviceSettings[],
  device: string,
  value: SettingValue,
): readonly DeviceSettings[] {
  const before = settings.find((of) => of.device === device);
  const others = (before?.values ?? []).filter(
    ({ control, port }) =>
      control !== value.control || (value.port !== null && port !== value.port),
  );
  const after = {
    device,
    sampleRate_hz: before?.sampleRate_hz ?? null,
    values: [...others, value],
  };
  return [...settings.filter((of) => of.device !== device), after];
}

type Kind = SettingValue extends infer One
  ? One extends SettingValue
    ? Omit<One, 'control' | 'port' | 'set' | 'path' | 'told'>
    : never
  : never;

/** What a text means to a control; `unknown` where it cannot be read. */
function meaningOf(told: string, control: Control | null): Kind {
  if (told === 'bypass') return { kind: 'bypass' };
  switch (control?.kind) {
    case 'polarity':
    case 'switch':
      return { kind: 'choice', choice: told };
    case 'level':
      return number(told, 'gain', (level_db) => ({ kind: 'level', level_db }));
    case 'phase':
      return number(told, 'angle', (phase_rad) => ({ kind: 'phase', phase_rad }));
    case 'sensitivity':
      return number(told, 'voltage', (input_v) => ({ kind: 'voltage', input_v }));
    case 'delay':
      return control.toldAs.as === 'samples'
        ? number(told, 'samples', (count) => ({ kind: 'samples', count }))
        : control.toldAs.as === 'time'
          ? number(told, 'time', (delay_s) => ({ kind: 'delay', delay_s }))
          : number(told, 'length', (length_m) => ({ kind: 'length', length_m }));
    default:
      return { kind: 'unknown' };
  }
}

function number(told: string, dimension: Dimension, make: (si: number) => Kind): Kind {
  const { quantity } = readQuantity(told, { quantity: dimension });
  return quantity === null ? { kind: 'unknown' } : make(quantity.si);
}

/** The air that the takes were made in: the session's temperature where it was written down, else the room's. */
export function sessionAir(
  room: Room,
  given: AirFigures,
  temperature_k: number | null,
): AirFigures {
  if (temperature_k === null || room.air.speedOfSound_m_s !== null) return given;
  const here = { air: { ...room.air, temperature_k }, habits: room.habits };
  return airPart(here, given.temperature_k).air;
}
