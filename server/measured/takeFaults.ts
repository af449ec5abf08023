// What is wrong with a take's file as faults of the take: each kind of fault of a file under the code of its finding.

import type { TakeFault } from '../../core/measured/measuredFigures.ts';
import { type FileFault, ofChannels } from '../measure/fileFault.ts';

/** Faults of the reading under the rule that tells them; the rest under `measurement/unreadable`. */
const CODES: Readonly<Record<string, string>> = {
  'wav/cut-short': 'measurement/cut-short',
  'wav/shorter-than-sweep': 'measurement/cut-short',
  'wav/not-a-number': 'measurement/no-number',
  'wav/clipped': 'measurement/clipped',
  'wav/silent': 'measurement/silent',
  'wav/no-channel': 'measurement/no-channel',
  'wav/rate': 'measurement/sample-rate',
  'wav/other-rate': 'measurement/sample-rate',
  'response/line': 'measurement/lines',
  'response/number': 'measurement/lines',
  'response/frequency': 'measurement/lines',
  'response/level': 'measurement/lines',
  'response/more': 'measurement/lines',
  'response/unsorted': 'measurement/lines',
  'response/twice': 'measurement/lines',
  'response/phase': 'measurement/lines',
};

/** @param channels those that the take uses, from 1: of the others nothing is told */
export function takeFaults(
  faults: readonly FileFault[],
  channels: readonly number[],
): readonly TakeFault[] {
  const own = ofChannels(faults, channels);
  const told = counted(own).map(({ code, severity, message, line }) => ({
    code: CODES[code] ?? 'measurement/unreadable',
    severity,
    message: line === null ? message : `line ${line}: ${message}`,
  }));
  // What is a warning about a file may be the end of a take: then the error says it.
  return told.filter(
    (one) =>
      one.severity === 'error' ||
      !told.some(({ severity, message }) => severity === 'error' && message === one.message),
  );
}

/** Of faults in many lines the first is told, with how many there are. */
function counted(faults: readonly FileFault[]): readonly FileFault[] {
  const lines = faults.filter(({ line }) => line !== null);
  const [first] = lines;
  if (first === undefined || lines.length === 1) return faults;
  const more = lines.length - 1;
  const others = `${first.message}; so ${more === 1 ? 'is 1 more line' : `are ${more} more lines`}`;
  return [
    ...faults.filter(({ line, code }) => line === null && code !== 'response/more'),
    { ...first, message: others },
  ];
}
