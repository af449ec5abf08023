// How long the processor was busy with another process, where the system tells it (Linux).

import { readdirSync, readFileSync } from 'node:fs';

/** Of all its threads since its start; NaN where nobody tells. */
export function processorTime_ms(pid: number | undefined): number {
  try {
    const tasks = `/proc/${pid}/task`;
    return readdirSync(tasks).reduce((sum_ms, task) => {
      const [busy_ns] = readFileSync(`${tasks}/${task}/schedstat`, 'utf8').split(' ');
      return sum_ms + Number(busy_ns) / 1e6;
    }, 0);
  } catch {
    return Number.NaN;
  }
}
