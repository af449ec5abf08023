// What is wrong with a measurement file: said in words, at its line where it has lines.

export interface FileFault {
  /** Stable, such as `wav/cut-short`. */
  readonly code: string;
  /** `error`: nothing can be read out of it; `warning`: the rest is read. */
  readonly severity: 'error' | 'warning';
  readonly message: string;
  /** From 1; null for a file without lines, or as a whole. */
  readonly line: number | null;
}

export function fault(
  code: string,
  severity: FileFault['severity'],
  message: string,
  line: number | null = null,
): FileFault {
  return { code, severity, message, line };
}

/** Of faults of single channels only those of these, from 1; what is wrong with other channels is nobody's concern. */
export function ofChannels(
  faults: readonly FileFault[],
  channels: readonly number[],
): readonly FileFault[] {
  return faults.filter(({ message }) => {
    const told = /^channel (\d+)\b/.exec(message)?.[1];
    return told === undefined || channels.includes(Number(told));
  });
}
