// The preview's page: runs the sheet's components on the setup that the host sends, and keeps everything that was drawn.

import type { RefObject, VNode } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Fix } from '../../../core/finding.ts';
import { findingCounts } from '../../../server/sheet/findingsPart.tsx';
import { LiveContext } from '../../../server/sheet/live.ts';
import { Sheet } from '../../../server/sheet/sheet.tsx';
import { AskingContext, useAsking } from './asking.ts';
import { useHearing } from './hearing.ts';
import type { Host } from './host.ts';
import { useLater } from './later.ts';
import { keepState, restoreState } from './memory.ts';
import { useMoving } from './moving.ts';
import type { PaneView } from './paneView.ts';
import { PointedContext, usePointed } from './pointed.ts';
import { PressurePlan } from './pressurePlan.tsx';
import { followClicks } from './toSource.ts';
import { TrialBar } from './trialBar.tsx';
import { useTrials } from './trials.ts';
import { followWidths, type Widths } from './widths.ts';

export function Pane({ host }: { readonly host: Host }): VNode {
  const root = useRef<HTMLDivElement | null>(null);
  const view = useHearing(host);
  const ask = useAsking(host);
  const { setup: moved, said } = useMoving(root, view, host, ask);
  const { trials, setup: tried, isWorking, why } = useTrials(host, view);
  // Whoever drags something moves it in the file.
  useEffect(() => {
    if (said !== null) trials.back();
  }, [said !== null]);
  const setup = said === null && tried !== null ? tried : moved;
  const isDrawn = setup !== null;
  const widths = useWidths(root, isDrawn, view.uri);
  useMemory(host, isDrawn ? view.uri : null);
  useEffect(
    () =>
      root.current === null
        ? undefined
        : followClicks(root.current, (path) => host.say({ kind: 'reveal', path })),
    [host],
  );
  const live = useMemo(
    () => ({
      live: true,
      ...widths,
      planView: PressurePlan,
      useLater,
      apply: ({ title, edits }: Fix) =>
        host.say({ kind: 'edit', version: view.version, title, edits }),
      trials,
    }),
    [host, widths, view.version, trials],
  );
  const pointed = usePointed(root, isDrawn);
  const asking = useMemo(() => ({ ask, version: view.version }), [ask, view.version]);
  const counts = setup === null ? '' : findingCounts({ setup, problems: view.problems });
  const trial = trials.triedOn === null ? null : `Tried on: ${trials.triedOn.title}. ${counts}`;
  return (
    <div ref={root} class={classesOf(view, tried !== null)}>
      <p class="unseen" role="status">
        {said ?? trial ?? why ?? counts}
      </p>
      {view.remark === null ? null : <p class="remark">{view.remark}</p>}
      {why === null ? null : <p class="remark">{why}</p>}
      <TrialBar trials={trials} isWorking={isWorking} />
      {setup === null ? null : (
        <LiveContext.Provider value={live}>
          <AskingContext.Provider value={asking}>
            <PointedContext.Provider value={pointed}>
              <Sheet
                key={view.uri ?? ''}
                setup={setup}
                problems={view.problems}
                label={view.label}
              />
            </PointedContext.Provider>
          </AskingContext.Provider>
        </LiveContext.Provider>
      )}
    </div>
  );
}

function classesOf({ isFieldOlder }: PaneView, isTried: boolean): string {
  return ['pane', isFieldOlder && !isTried ? 'pane-older' : '', isTried ? 'pane-tried' : '']
    .filter(Boolean)
    .join(' ');
}

const NOT_MEASURED: Widths = { planWidth_px: null, sideWidth_px: null };

function useWidths(
  root: RefObject<HTMLDivElement | null>,
  isDrawn: boolean,
  uri: string | null,
): Widths {
  const [widths, setWidths] = useState(NOT_MEASURED);
  useLayoutEffect(
    () =>
      root.current === null
        ? undefined
        : followWidths(root.current, (next) =>
            setWidths((old) => (isSame(old, next) ? old : next)),
          ),
    [root, isDrawn, uri],
  );
  return widths;
}

function isSame(one: Widths, other: Widths): boolean {
  return one.planWidth_px === other.planWidth_px && one.sideWidth_px === other.sideWidth_px;
}

/** @param uri of the file that is drawn; null while nothing is */
function useMemory(host: Host, uri: string | null): void {
  useLayoutEffect(() => {
    if (uri === null) return undefined;
    restoreState(host, uri);
    return keepState(host, uri);
  }, [host, uri]);
}
