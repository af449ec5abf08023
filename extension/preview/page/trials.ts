// What is tried on in the pane: the room as it would be, worked out by the server, in place of the file's until it is put off again.

import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Setup } from '../../../core/setup.ts';
import type { Trial, Trials } from '../../../server/sheet/live.ts';
import type { Host } from './host.ts';
import type { PaneView } from './paneView.ts';

interface Tried {
  readonly trial: Trial;
  readonly number: number;
  /** null until it is worked out. */
  readonly setup: Setup | null;
}

export interface TriedOn {
  readonly trials: Trials;
  /** To be drawn in place of the file's; null where nothing is tried on, or while it is worked out. */
  readonly setup: Setup | null;
  readonly isWorking: boolean;
  /** Why a search or a trial came to nothing. */
  readonly why: string | null;
}

const GONE = 'It cannot be tried on: the text has changed in the meantime.';

export function useTrials(host: Host, view: PaneView): TriedOn {
  const [tried, setTried] = useState<Tried | null>(null);
  const [searching, setSearching] = useState<Trials['searching']>(null);
  const [why, setWhy] = useState<string | null>(null);
  const count = useRef(0);
  useEffect(
    () =>
      host.listen((message) => {
        if (message.kind === 'searched') {
          setSearching(null);
          setWhy(message.why);
        }
        if (message.kind !== 'tried') return;
        const setup = message.answer?.setup ?? null;
        if (setup === null) setWhy(GONE);
        // Only the last one asked for counts.
        setTried((old) =>
          old?.number !== message.trial ? old : setup === null ? null : { ...old, setup },
        );
      }),
    [host],
  );
  // The file has changed, or another one is shown: what was tried on was tried on another room.
  useEffect(() => setTried(null), [view.version, view.uri]);
  useEffect(() => {
    if (tried === null) return undefined;
    const onKey = ({ key }: KeyboardEvent): void => {
      if (key === 'Escape') setTried(null);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [tried === null]);
  const standing = useMemo(() => {
    const { subwoofers = [], speakers = [], seats = [] } = view.setup?.room ?? {};
    return [...subwoofers, ...speakers, ...seats].flatMap(({ id, at }) => (at ? [{ id, at }] : []));
  }, [view.setup]);
  const trials = useMemo<Trials>(
    () => ({
      found: view.found,
      standing,
      searching,
      triedOn: tried?.trial ?? null,
      search: (wanted) => {
        setSearching(wanted);
        setWhy(null);
        host.say({ kind: 'search', ...wanted });
      },
      stop: () => host.say({ kind: 'stop' }),
      tryOn: (trial) => {
        count.current += 1;
        const { edits } = trial;
        setTried((old) => ({ trial, number: count.current, setup: old?.setup ?? null }));
        setWhy(null);
        host.say({ kind: 'try', trial: count.current, version: view.version, edits });
      },
      back: () => setTried(null),
      write: ({ title, edits }) => host.say({ kind: 'edit', version: view.version, title, edits }),
    }),
    [host, view.found, view.version, standing, searching, tried?.trial],
  );
  const isWorking = tried !== null && tried.setup === null;
  return { trials, setup: tried?.setup ?? null, isWorking, why };
}
