// The air's figures in words.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import type { Explanation } from './explanation.ts';

export function explainAir({ air }: Setup, show: Show): Explanation {
  return {
    title: 'Air',
    lines: [
      `speed of sound **${show.speed(air.speedOfSound_m_s)}**`,
      `${show.temperature(air.temperature_k)}, ${show.share(air.relativeHumidity)} relative humidity, ${(air.pressure_pa / 1000).toFixed(1)} kPa${air.assumed ? ' (no temperature given: the default stands in)' : ''}`,
      `density ${air.density_kg_m3.toFixed(3)} kg/m³`,
      `5 °C more make it ${show.speed(air.speedChangePer5K_m_s)} faster: times get shorter and modes rise by ${((100 * air.speedChangePer5K_m_s) / air.speedOfSound_m_s).toFixed(1)} %`,
    ],
    source: air.source,
  };
}
