// Rule air/out-of-range: what the file says of the air lies where the formula for the speed of sound was checked.

import type { Path } from '../../../schema/model/path.ts';
import { AIR_RANGE } from '../../acoustics/air.ts';
import type { Show } from '../../show.ts';
import { defineRule, type Rule } from '../rule.ts';

/** What dry air at 0 °C and saturated air at 30 °C give, the ends of the formula's range. @source Cramer 1993 */
const SPEED_M_S = [331.4, 351.5] as const;

interface Fact {
  readonly what: 'temperature' | 'pressure' | 'speed';
  readonly value: number;
  readonly range: readonly [number, number];
}

export const airOutOfRange: Rule = defineRule<Fact>({
  code: 'air/out-of-range',
  severity: 'warning',
  title: 'Air outside the usual range',
  reason:
    'The speed of sound, and with it every delay and mode, is checked for air of 0 to 30 °C only.',
  advice: 'Correct the figure, or take delays from a measurement.',
  source: 'Cramer, J. Acoust. Soc. Am. 93 (1993) 2510: valid for 0 to 30 °C and 75 to 102 kPa',

  *find({ room: { air } }) {
    const path: Path = ['space', 'air'];
    const { temperature_k, pressure_pa, speedOfSound_m_s } = air;
    if (isOutside(temperature_k, AIR_RANGE.temperature_k)) {
      yield {
        path: [...path, 'temperature'],
        fact: { what: 'temperature', value: temperature_k, range: AIR_RANGE.temperature_k },
        measured: { value: temperature_k, unit: 'K' },
      };
    }
    if (isOutside(pressure_pa, AIR_RANGE.pressure_pa)) {
      yield {
        path: [...path, 'pressure'],
        fact: { what: 'pressure', value: pressure_pa, range: AIR_RANGE.pressure_pa },
        measured: { value: pressure_pa, unit: 'Pa' },
      };
    }
    if (isOutside(speedOfSound_m_s, SPEED_M_S)) {
      yield {
        path: [...path, 'speed_of_sound'],
        fact: { what: 'speed', value: speedOfSound_m_s, range: SPEED_M_S },
        measured: { value: speedOfSound_m_s, unit: 'm/s' },
      };
    }
  },

  message({ what, value, range: [low, high] }, show) {
    const words = WORDS[what];
    const say = (figure: number) => words.say(figure, show);
    return `${words.name} of ${say(value)} is outside ${say(low)} to ${say(high)}`;
  },
});

const WORDS: Readonly<
  Record<
    Fact['what'],
    { readonly name: string; readonly say: (value: number, show: Show) => string }
  >
> = {
  temperature: { name: 'A temperature', say: (value, show) => show.temperature(value) },
  pressure: { name: 'A pressure', say: (value) => `${Math.round(value / 100)} hPa` },
  speed: { name: 'A speed of sound', say: (value, show) => show.speed(value) },
};

function isOutside(value: number | null, [low, high]: readonly [number, number]): value is number {
  return value !== null && !(low <= value && value <= high);
}
