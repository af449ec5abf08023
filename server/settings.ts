// The client's settings: what it gives laid over what holds where it gives nothing; a value of a wrong type counts as not given.

import { DEFAULT_SETTINGS, HINT_KINDS, type Settings } from './protocol/settings.ts';

export function readSettings(given: unknown): Settings {
  const all = record(given);
  const hints = record(all.hints);
  const standing = DEFAULT_SETTINGS;
  const hint = (kind: keyof Settings['hints']): boolean =>
    typeof hints[kind] === 'boolean' ? hints[kind] : standing.hints[kind];
  const kinds = Object.fromEntries(HINT_KINDS.map((kind) => [kind, hint(kind)]));
  return {
    hints: { ...standing.hints, ...kinds, enabled: hint('enabled') },
    sampleRate_hz: number(all.sampleRate_hz, standing.sampleRate_hz, 8_000, 768_000),
    temperature_c: number(all.temperature_c, standing.temperature_c, -50, 60),
  };
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

function number(given: unknown, standing: number, least: number, most: number): number {
  return typeof given === 'number' && least <= given && given <= most ? given : standing;
}
