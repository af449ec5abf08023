// A band by its middle, as people and room files write it.

/** "63 Hz", "1 kHz". */
export function bandName(nominal_hz: number): string {
  return nominal_hz < 1000 ? `${nominal_hz} Hz` : `${nominal_hz / 1000} kHz`;
}
