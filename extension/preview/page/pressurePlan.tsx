// The plan with pressure over it, at a frequency that the reader moves through by slider or arrow keys, or by pointing into a
// response chart.
//
// The map of a box is worked out here, in the page. That of another room comes from the server, which keeps the room's modes.

import type { VNode } from 'preact';
import { useContext, useEffect, useMemo, useState } from 'preact/hooks';
import type { FieldMap, FieldMapRequest } from '../../../core/fieldFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import { createPressureMaps } from '../../../core/withField.ts';
import { extentOf } from '../../../server/sheet/plan/outline.ts';
import { Plan } from '../../../server/sheet/plan/plan.tsx';
import type { PlanProps } from '../../../server/sheet/plan/planProps.ts';
import { PressureKey } from '../../../server/sheet/plan/pressureMap.tsx';
import { AskingContext, newestOnly } from './asking.ts';
import { PointedContext } from './pointed.ts';
import { PressureControls, type Sounding } from './pressureControls.tsx';

export function PressurePlan(props: PlanProps): VNode {
  const { setup, show } = props;
  const [isOn, setOn] = useState(false);
  const [chosen, setChosen] = useState(0);
  const [asked_hz, setAsked] = useState<number | null>(null);
  const soundings = soundingsOf(setup);
  const sounding = soundings[chosen] ?? soundings[0];
  const frequency_hz = asked_hz ?? tellingFrequency_hz(setup);
  const pointed = useContext(PointedContext);
  useEffect(() => (isOn ? pointed.listen(setAsked) : undefined), [isOn, pointed]);
  const map = useMap(setup, isOn && sounding ? sounding.of : null, frequency_hz);
  return (
    <>
      <Plan {...props} map={map} />
      {sounding === undefined ? null : (
        <PressureControls
          isOn={isOn}
          setOn={setOn}
          soundings={soundings}
          chosen={soundings.indexOf(sounding)}
          choose={setChosen}
          frequency_hz={frequency_hz}
          setFrequency={setAsked}
          show={show}
          reading={map === null ? null : readingOf(map, setup)}
        >
          {map === null ? null : <PressureKey map={map} />}
        </PressureControls>
      )}
    </>
  );
}

/** Channels first, then everything that sounds by itself. */
function soundingsOf({ field }: Setup): readonly Sounding[] {
  const [seat] = field?.seats ?? [];
  if (!seat) return [];
  const channels = seat.channels.map(({ channel, set }) => ({
    text: set === null ? `channel ${channel}` : `channel ${channel}, set ${set}`,
    of: { channel, set },
  }));
  const sources = [...new Set(seat.sources.map(({ source }) => source))].map((source) => ({
    text: `${source} alone`,
    of: { source },
  }));
  return [...channels, ...sources];
}

/** Where the first channel has its deepest dip at the reference seat. */
function tellingFrequency_hz({ field, referenceSeat }: Setup): number {
  const seat = field?.seats.find((one) => one.seat === referenceSeat) ?? field?.seats[0];
  return seat?.channels[0]?.extremes?.dip.frequency_hz ?? 50;
}

/** Ear height, where no seat says it: sitting. */
const EAR_M = 1.2;
/** Cells along the longer side: as fine as a frame allows. */
const CELLS = { box: 72, other: 48 } as const;

function useMap(
  setup: Setup,
  of: FieldMapRequest['of'] | null,
  frequency_hz: number,
): FieldMap | null {
  const { ask, version } = useContext(AskingContext);
  const maps = useMemo(createPressureMaps, []);
  const isQuick = setup.field?.method === 'box';
  const request = of === null ? null : requestOf(setup, of, frequency_hz);
  // The same words are the same request.
  const key = JSON.stringify(request);
  const quick = useMemo(
    () => (isQuick && request !== null ? maps(setup, request) : null),
    [isQuick, setup.room, key],
  );
  const [told, setTold] = useState<{ readonly of: string; readonly map: FieldMap } | null>(null);
  const asked = useMemo(
    () =>
      newestOnly(ask, ({ map }, { ask: question }) => {
        if (map !== null && question.kind === 'map')
          setTold({ of: JSON.stringify(question.request.of), map });
      }),
    [ask],
  );
  useEffect(() => {
    if (!isQuick && request !== null) asked.want({ version, ask: { kind: 'map', request } });
    // A new low end is a sign that the server has time again.
  }, [asked, isQuick, version, key, setup.field]);
  if (isQuick || request === null) return quick;
  return told?.of === JSON.stringify(of) ? told.map : null;
}

function requestOf(
  { room, field, referenceSeat }: Setup,
  of: FieldMapRequest['of'],
  frequency_hz: number,
): FieldMapRequest | null {
  const { shape } = room.space;
  if (shape === null) return null;
  const { left_m, right_m, top_m, bottom_m } = extentOf(shape);
  const [across_m, down_m] = [right_m - left_m, bottom_m - top_m];
  const cell_m = Math.max(across_m, down_m) / (field?.method === 'box' ? CELLS.box : CELLS.other);
  const ears = room.seats.find(({ id }) => id === referenceSeat)?.at;
  return {
    of,
    frequency_hz,
    height_m: ears?.z_m ?? EAR_M,
    columns: Math.max(1, Math.round(across_m / cell_m)),
    rows: Math.max(1, Math.round(down_m / cell_m)),
  };
}

/** The level at the reference seat, for who cannot see the map. */
function readingOf(
  { x_m, y_m, level_db }: FieldMap,
  { room, referenceSeat }: Setup,
): string | null {
  const at = room.seats.find(({ id }) => id === referenceSeat)?.at;
  if (!at) return null;
  const level = level_db[nearest(y_m, at.y_m) * x_m.length + nearest(x_m, at.x_m)] ?? null;
  return level === null ? null : `${level.toFixed(0)} dB SPL at ${referenceSeat}`;
}

function nearest(places_m: readonly number[], at_m: number): number {
  return places_m.reduce(
    (best, place_m, index) =>
      Math.abs(place_m - at_m) < Math.abs((places_m[best] ?? 0) - at_m) ? index : best,
    0,
  );
}
