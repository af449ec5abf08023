// The editor's settings as the server takes them: same facts, with the server's names and units.

import { DEFAULT_SETTINGS, HINT_KINDS, type Settings } from '../server/protocol/settings.ts';

/** @param given the section `groundbass` of the editor's settings */
export function toServerSettings(given: unknown): Settings {
  const hints = record(record(given).hints);
  const defaults = record(record(given).defaults);
  const { hints: standing, sampleRate_hz, temperature_c } = DEFAULT_SETTINGS;
  return {
    hints: Object.fromEntries(
      (['enabled', ...HINT_KINDS] as const).map((kind) => [
        kind,
        orElse(hints[kind], standing[kind]),
      ]),
    ) as unknown as Settings['hints'],
    sampleRate_hz: orElse(defaults.sampleRate, sampleRate_hz),
    temperature_c: orElse(defaults.temperature, temperature_c),
  };
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}

/** The user's value, unless it is of another type than what stands in for it. */
function orElse<T>(value: unknown, standing: T): T {
  return typeof value === typeof standing ? (value as T) : standing;
}
