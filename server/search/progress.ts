// Long work as an editor sees it: with progress and a way to stop it, other requests served in between.

import type { CancellationToken, WorkDoneProgressReporter } from 'vscode-languageserver';
import type { InSlices } from '../../core/search/transferMap.ts';
import type { Shared } from '../connect.ts';
import type { FieldHost } from '../field/fieldJob.ts';

/** So long the work has the machine before others are served; steps are a few milliseconds. */
const SLICE_STEPS = 4;

export interface Told {
  readonly reporter: WorkDoneProgressReporter;
  readonly token: CancellationToken | null;
}

/** The progress that the client asked for with its request, else one of our own, else none that anyone sees. */
export async function progressOf(
  { connection, client }: Pick<Shared, 'connection' | 'client'>,
  asked: WorkDoneProgressReporter,
  title: string,
): Promise<Told> {
  if (client()?.showsProgress !== true) {
    asked.begin(title, 0, undefined, true);
    return { reporter: asked, token: null };
  }
  try {
    const own = await connection.window.createWorkDoneProgress();
    own.begin(title, 0, undefined, true);
    return { reporter: own, token: own.token };
  } catch {
    return { reporter: asked, token: null };
  }
}

/** @returns null where it was stopped */
export async function workedOff<Answer>(
  work: InSlices<Answer>,
  { reporter, token }: Told,
  asked: CancellationToken,
  after: FieldHost['after'],
): Promise<Answer | null> {
  let percent = 0;
  for (;;) {
    for (let count = 0; count < SLICE_STEPS; count += 1) {
      const step = work.next();
      if (step.done === true) return step.value;
      const now = Math.floor(step.value * 100);
      if (percent < now) reporter.report(now);
      percent = Math.max(percent, now);
    }
    await new Promise<void>((go) => void after(0, go));
    if (asked.isCancellationRequested || token?.isCancellationRequested === true) return null;
  }
}
