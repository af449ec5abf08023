// The numbers in the settings of a room, each with the steps of its control and the text that would take another value.

import type { Control, Steps } from '../../../schema/model/gear.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Room, SettingValue } from '../../../schema/model/room.ts';
import {
  angleText,
  frequencyText,
  lengthText,
  levelText,
  millisecondsText,
  samplesText,
  slopeText,
  voltageText,
} from '../../parts/advice/settingText.ts';

export interface SettingNumber {
  readonly device: string;
  readonly control: Control;
  /** Where this number stands: below the setting for the frequency of a filter, the gain of a band. */
  readonly path: Path;
  readonly told: string;
  readonly value: number;
  readonly steps: Steps;
  readonly unit: string;
  /** A value of the control as the file would write it. */
  readonly text: (value: number) => string;
}

/** Every number that a control of a known model is set to. */
export function* settingNumbers(room: Room): Generator<SettingNumber> {
  const things = new Map(
    [...room.devices, ...room.subwoofers, ...room.speakers].map(({ id, gear }) => [id, gear]),
  );
  for (const { device, sampleRate_hz, values } of room.settings) {
    const gear = things.get(device);
    for (const value of values) {
      const control = gear?.controls.find(({ name }) => name === value.control);
      if (control === undefined) continue;
      for (const number of numbersOf(value, control, sampleRate_hz)) {
        yield { device, control, ...number };
      }
    }
  }
}

type Numbers = readonly Omit<SettingNumber, 'device' | 'control'>[];

function numbersOf(value: SettingValue, control: Control, rate_hz: number | null): Numbers {
  const { path, told } = value;
  switch (control.kind) {
    case 'filter':
      return value.kind === 'filter' ? filterNumbers(value, control) : [];
    case 'delay':
      return delayNumbers(value, control, rate_hz);
    case 'level': {
      if (value.kind !== 'level') return [];
      const steps = control.level_db;
      const text = (level_db: number) => levelText(level_db, steps.step);
      return [{ path, told, value: value.level_db, steps, unit: 'dB', text }];
    }
    case 'sensitivity':
      return value.kind === 'voltage'
        ? [
            {
              path,
              told,
              value: value.input_v,
              steps: control.input_v,
              unit: 'V',
              text: voltageText,
            },
          ]
        : [];
    case 'phase':
      return value.kind === 'phase'
        ? [
            {
              path,
              told,
              value: value.phase_rad,
              steps: control.phase_rad,
              unit: 'rad',
              text: angleText,
            },
          ]
        : [];
    case 'eq':
      return value.kind === 'eq' ? eqNumbers(value, control) : [];
    default:
      return [];
  }
}

function filterNumbers(
  value: Extract<SettingValue, { kind: 'filter' }>,
  control: Extract<Control, { kind: 'filter' }>,
): Numbers {
  const { path, frequency_hz, slope_db_oct } = value;
  return [
    ...numberAt(path, 'frequency', frequency_hz, control.frequency_hz, 'Hz', frequencyText),
    ...numberAt(path, 'slope', slope_db_oct, control.slope_db_oct, 'dB/oct', slopeText),
  ];
}

function eqNumbers(
  { path, bands }: Extract<SettingValue, { kind: 'eq' }>,
  control: Extract<Control, { kind: 'eq' }>,
): Numbers {
  const gainText = (gain_db: number) => levelText(gain_db, control.gain_db.step);
  const qText = (q: number) => String(Number(q.toFixed(3)));
  return bands.flatMap(({ name, frequency_hz, gain_db, q }) => [
    ...numberAt(
      [...path, name],
      'frequency',
      frequency_hz,
      control.frequency_hz,
      'Hz',
      frequencyText,
    ),
    ...numberAt([...path, name], 'gain', gain_db, control.gain_db, 'dB', gainText),
    ...numberAt([...path, name], 'q', q, control.q, '', qText),
  ]);
}

function numberAt(
  path: Path,
  key: string,
  value: number | null,
  steps: Steps,
  unit: string,
  text: (value: number) => string,
): Numbers {
  if (value === null) return [];
  return [{ path: [...path, key], told: text(value), value, steps, unit, text }];
}

function delayNumbers(
  value: SettingValue,
  { toldAs, delay_s }: Extract<Control, { kind: 'delay' }>,
  rate_hz: number | null,
): Numbers {
  const { path, told } = value;
  if (value.kind === 'delay') {
    const known_hz = toldAs.as === 'samples' ? (rate_hz ?? toldAs.rate_hz) : null;
    const steps = known_hz === null ? delay_s : { ...delay_s, step: 1 / known_hz };
    const text = (time_s: number) =>
      known_hz === null
        ? millisecondsText(time_s, delay_s.step)
        : samplesText(Math.round(time_s * known_hz));
    return toldAs.as === 'time' || known_hz !== null
      ? [{ path, told, value: value.delay_s, steps, unit: 's', text }]
      : [];
  }
  if (value.kind !== 'length' || !('speedOfSound_m_s' in toldAs)) return [];
  const speed_m_s = toldAs.speedOfSound_m_s;
  const step_m = delay_s.step === null ? null : delay_s.step * speed_m_s;
  const text = (time_s: number) => lengthText(time_s * speed_m_s, step_m);
  return [{ path, told, value: value.length_m / speed_m_s, steps: delay_s, unit: 's', text }];
}
