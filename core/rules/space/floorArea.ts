// Rule space/floor-area: the room is neither smaller nor larger than the listening-room standards have in mind.

import { defineRule, type Rule } from '../rule.ts';

/** @source ITU-R BS.1116-3 (from memory): 20–60 m² for stereo, 30–70 m² for more channels: the outer limits of both */
const LEAST_M2 = 20;
const MOST_M2 = 70;
/** @source EBU Tech 3276: at most 300 m³ */
const MOST_M3 = 300;

interface Fact {
  readonly area_m2: number;
  readonly volume_m3: number | null;
}

export const spaceFloorArea: Rule = defineRule<Fact>({
  code: 'space/floor-area',
  severity: 'hint',
  title: 'Size of the room',
  reason: 'The figures of the listening-room standards are meant for 20 to 70 m² and up to 300 m³.',
  advice: 'Take their limits as a direction, not as a verdict, in a room of another size.',
  source: 'ITU-R BS.1116-3 (from memory); EBU Tech 3276',

  *find({ space }) {
    if (space === null) return;
    const { floorArea_m2: area_m2, volume_m3 } = space;
    const isTooHigh = volume_m3 !== null && MOST_M3 < volume_m3;
    if (LEAST_M2 <= area_m2 && area_m2 <= MOST_M2 && !isTooHigh) return;
    yield {
      path: ['space'],
      fact: { area_m2, volume_m3 },
      measured: { value: area_m2, unit: 'm2' },
      limit: { value: area_m2 < LEAST_M2 ? LEAST_M2 : MOST_M2, unit: 'm2' },
    };
  },

  message({ area_m2, volume_m3 }, show) {
    if (area_m2 < LEAST_M2) {
      return `A floor of ${show.area(area_m2)}: the listening-room standards begin at ${show.area(LEAST_M2)}`;
    }
    if (MOST_M2 < area_m2) {
      return `A floor of ${show.area(area_m2)}: the listening-room standards end at ${show.area(MOST_M2)}`;
    }
    return `A volume of ${show.volume(volume_m3 ?? 0)}: the listening-room standards end at ${show.volume(MOST_M3)}`;
  },
});
