// A room as it would be with some edits: analysed like any other, low end included, while the file stays as it is.

import { TextDocument } from 'vscode-languageserver-textdocument';
import type { SemanticEdit } from '../core/finding.ts';
import type { FieldPart } from '../core/parts/field.ts';
import { createJudge } from '../core/rules/judge.ts';
import { createWorkOut, type WorkOut } from '../core/workOut.ts';
import { parseFile } from '../schema/parse/parseFile.ts';
import { type AnalyseOptions, analyse } from './analyse.ts';
import type { Analysis } from './analysis.ts';
import { applied, editsOf } from './edits.ts';
import type { FieldHost, FieldWorker } from './field/fieldJob.ts';
import { mergedField } from './field/mergedField.ts';
import { mergedMeasured } from './measured/mergedMeasured.ts';

export interface TryOut {
  /** null where it cannot be edited so. */
  readonly tried: (
    analysis: Analysis,
    edits: readonly SemanticEdit[],
    options: Pick<AnalyseOptions, 'settings' | 'today' | 'exists'>,
  ) => Promise<Analysis | null>;
  readonly forget: (uri: string) => void;
}

/** After this nobody tries anything any more, and the thread is given back. */
const IDLE_MS = 60_000;

/** @param host gives a worker of its own, so that what the file says never waits for what is only tried */
export function createTryOut(host: FieldHost): TryOut {
  const workOuts = new Map<string, WorkOut>();
  let worker: FieldWorker | null = null;
  let endIdle = (): void => undefined;
  let last: Promise<unknown> = Promise.resolve();

  function field({ source, setup }: Analysis): Promise<FieldPart | null> {
    if (setup === null) return Promise.resolve(null);
    endIdle();
    worker ??= host.start();
    const now = worker;
    const { room, air, space, referenceSeat } = setup;
    return new Promise((done) => {
      now.work({ uri: source.uri, of: { room, air, space, referenceSeat } }, (reply) => {
        endIdle = host.after(IDLE_MS, () => {
          worker?.end();
          worker = null;
        });
        done('part' in reply ? reply.part : null);
      });
    });
  }

  return {
    tried: async (analysis, edits, options) => {
      const { source, surroundings } = analysis;
      const texts = editsOf(source, edits);
      if (texts === null) return null;
      const text = applied(source.parsed.text, texts);
      const workOut = workOuts.get(source.uri) ?? createWorkOut();
      workOuts.set(source.uri, workOut);
      const edited = {
        ...source,
        text: TextDocument.create(source.uri, source.text.languageId, source.version ?? 0, text),
        parsed: parseFile('room', text),
      };
      const quick = analyse(edited, surroundings, { ...options, workOut, crossing: [] });
      // One job at a time: a worker answers one before it takes the next.
      const working = last.then(() => field(quick));
      last = working.catch(() => null);
      const part = await working;
      const judge = createJudge();
      const whole = part === null ? quick : mergedField(quick, part, options.today, judge);
      const measured = analysis.setup?.measured ?? null;
      // The takes are what they are; with the room as it would be they have nothing to do, and are not held against it.
      return measured === null
        ? whole
        : mergedMeasured(whole, measured, null, options.today, judge);
    },
    forget: (uri) => {
      workOuts.delete(uri);
      worker?.forget(uri);
    },
  };
}
