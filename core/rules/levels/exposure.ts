// Rule levels/exposure: how long a day the reference level may be listened to, as a caution.

import { NIOSH } from '../../acoustics/exposure.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly level_dba: number;
  readonly hours: number;
  readonly channelCount: number;
}

export const levelsExposure: Rule = defineRule<Fact>({
  code: 'levels/exposure',
  severity: 'information',
  title: 'Hearing: time at the reference level',
  reason:
    "With all channels playing at the reference level the day's limit for the ears is reached before the day is over.",
  advice:
    'Plan breaks and quieter listening; local law on noise at work decides, and this is no clearance.',
  source: `${NIOSH.source}: ${NIOSH.eightHours_dbspl} dBA for 8 h, 3 dB halve the time`,

  *find({ room, levels: { exposure, reference } }) {
    if (exposure === null || 8 <= exposure.hours) return;
    const path = reference.from === 'room' ? ['targets', 'reference_level'] : ['policy'];
    yield {
      path: room.targets.referenceLevel ? ['targets', 'reference_level'] : path,
      fact: { ...exposure, channelCount: reference.channelCount },
      severity: exposure.hours < 1 ? 'warning' : 'information',
      measured: { value: exposure.level_dba, unit: 'dBA' },
      limit: { value: NIOSH.eightHours_dbspl, unit: 'dBA' },
    };
  },

  message: ({ level_dba, hours, channelCount }) =>
    `${channelCount} channels at the reference level are about ${level_dba.toFixed(0)} dBA: ${timeText(hours)} a day`,
});

function timeText(hours: number): string {
  return hours < 1 ? `${Math.max(1, Math.round(hours * 60))} min` : `${hours.toFixed(1)} h`;
}
