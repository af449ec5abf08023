// The settings that a client may give (section `groundbass`), with what holds where it gives none.

export const HINT_KINDS = [
  'room',
  'arrival',
  'angle',
  'setting',
  'crossover',
  'bass',
  'measurement',
  'connection',
] as const;
export type HintKind = (typeof HINT_KINDS)[number];

export interface Settings {
  /** Off altogether, or kinds of hint one by one. */
  readonly hints: Readonly<Record<HintKind, boolean>> & { readonly enabled: boolean };
  /** Where a file names no sample rate. */
  readonly sampleRate_hz: number;
  /** Where a file gives no temperature, in degrees Celsius. */
  readonly temperature_c: number;
}

export const DEFAULT_SETTINGS: Settings = {
  hints: {
    enabled: true,
    room: true,
    arrival: true,
    angle: true,
    setting: true,
    crossover: true,
    bass: true,
    measurement: true,
    connection: false,
  },
  sampleRate_hz: 48000,
  temperature_c: 20,
};
