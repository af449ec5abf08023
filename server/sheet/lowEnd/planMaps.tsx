// On paper: pressure over the plan where the leading channel has its deepest dip at the reference seat, and its highest peak.
//
// In the pane the plan itself shows any frequency, and nothing is drawn here.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { FieldFigures, FieldMap, SeatField } from '../../../core/fieldFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import { createPressureMaps } from '../../../core/withField.ts';
import type { Space } from '../../../schema/model/room.ts';
import { LiveContext } from '../live.ts';
import { extentWith, frameFor, pointsText, round } from '../plan/frame.ts';
import { extentOf, wallsOf } from '../plan/outline.ts';
import { PressureKey, PressureMap } from '../plan/pressureMap.tsx';
import { ThingMark } from '../plan/thingMark.tsx';
import { thingsOf } from '../plan/things.ts';
import type { View } from '../view.ts';
import { signed } from '../words.ts';
import { curveGroups, groupTitle, leadingGroup } from './curveGroups.ts';

export function PlanMaps({
  field,
  ...view
}: View & { readonly field: FieldFigures }): VNode | null {
  const { live } = useContext(LiveContext);
  const { setup, show } = view;
  const { shape } = setup.room.space;
  const seat = field.seats.find((one) => one.seat === setup.referenceSeat);
  if (live || shape === null || seat === undefined) return null;
  const maps = tellingMaps(setup, field, seat, show);
  if (maps.length === 0) return null;
  return (
    <>
      <h3>Pressure over the plan</h3>
      <div class="columns charts">
        {maps.map(({ map, text }) => (
          <MapFigure key={text} map={map} text={text} setup={setup} shape={shape} />
        ))}
      </div>
    </>
  );
}

interface TellingMap {
  readonly map: FieldMap;
  readonly text: string;
}

/** Cells along the plan's longer side: about 4 drawing units each. */
const CELLS = 76;

function tellingMaps(
  setup: Setup,
  field: FieldFigures,
  seat: SeatField,
  show: View['show'],
): readonly TellingMap[] {
  const group = leadingGroup(curveGroups(field, seat));
  const extremes = group?.first.extremes;
  const at = setup.room.seats.find(({ id }) => id === seat.seat)?.at;
  const { shape } = setup.room.space;
  if (!group || !extremes || !at || shape === null) return [];
  const { left_m, right_m, top_m, bottom_m } = extentOf(shape);
  const [across_m, down_m] = [right_m - left_m, bottom_m - top_m];
  const longer_m = Math.max(across_m, down_m);
  const { channel, set } = group.first;
  const pressureOverPlan = createPressureMaps();
  return [extremes.dip, extremes.peak].flatMap(({ frequency_hz, level_db }) => {
    const map = pressureOverPlan(setup, {
      of: { channel, set },
      frequency_hz,
      height_m: at.z_m,
      columns: Math.round((CELLS * across_m) / longer_m),
      rows: Math.round((CELLS * down_m) / longer_m),
    });
    const what = level_db < 0 ? 'deepest dip' : 'highest peak';
    return map === null
      ? []
      : [
          {
            map,
            text: `${show.frequency(frequency_hz)}: ${what} of ${groupTitle(group)} at ${seat.seat}, ${signed(level_db, show.level(level_db))}. ${channel} plays, at ear height.`,
          },
        ];
  });
}

const WIDTH = 330;
const HEIGHT_LIMIT = 400;
const MARGINS = { left: 6, right: 6, top: 6, bottom: 6 };

function MapFigure({
  map,
  text,
  setup,
  shape,
}: TellingMap & {
  readonly setup: Setup;
  readonly shape: NonNullable<Space['shape']>;
}): VNode {
  const frame = frameFor(extentWith(extentOf(shape), []), WIDTH, HEIGHT_LIMIT, MARGINS);
  const corners = wallsOf(shape).map(({ from: [x_m, y_m] }) => frame.toDrawing(x_m, y_m));
  return (
    <figure>
      <svg
        class="drawing plan-map"
        viewBox={`0 0 ${round(frame.width)} ${round(frame.height)}`}
        width={round(frame.width)}
        height={round(frame.height)}
        role="img"
        aria-label={`Pressure over the plan. ${text}`}
      >
        <PressureMap map={map} frame={frame} />
        <polygon class="wall" points={pointsText(corners)} />
        {thingsOf(setup).map((thing) => (
          <ThingMark
            key={`${thing.kind}-${thing.id}`}
            thing={thing}
            frame={frame}
            label={`${thing.kind} ${thing.id}`}
            raised={false}
          />
        ))}
      </svg>
      <figcaption>
        {text} <PressureKey map={map} />
      </figcaption>
    </figure>
  );
}
