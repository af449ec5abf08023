// The delay that a delay stage makes with what is dialled in, whichever way its device is told.

import type { DelayTelling } from '../../schema/model/gear.ts';
import type { DeviceSettings, SettingValue } from '../../schema/model/room.ts';

/**
 * @param value what is dialled in; null where nothing is, which counts as no delay
 * @param telling how the device is told
 * @param settings of the same device: where it is told distances, each delay depends on the longest of them
 * @returns seconds; null where it cannot be known (samples at no known rate, a kind that the device does not take)
 */
export function dialledDelay_s(
  value: SettingValue | null,
  telling: DelayTelling,
  settings: DeviceSettings | undefined,
): number | null {
  if (value === null) return 0;
  if (value.kind === 'delay') return value.delay_s;
  if (value.kind === 'samples') {
    const rate_hz = telling.as === 'samples' ? telling.rate_hz : null;
    const known_hz = rate_hz ?? settings?.sampleRate_hz ?? null;
    return known_hz === null ? null : value.count / known_hz;
  }
  if (value.kind !== 'length') return null;
  if (telling.as === 'added_path') return value.length_m / telling.speedOfSound_m_s;
  if (telling.as !== 'own_distance') return null;
  const told = (settings?.values ?? []).flatMap((other) =>
    other.kind === 'length' && other.control === value.control ? [other.length_m] : [],
  );
  return (Math.max(value.length_m, ...told) - value.length_m) / telling.speedOfSound_m_s;
}
