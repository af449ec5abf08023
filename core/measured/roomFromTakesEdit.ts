// The edit that makes a file say what its takes do: sides that are clearly otherwise, decay times of the bass.

import type { Fix, SemanticEdit } from '../finding.ts';
import { lengthText } from '../rules/places.ts';
import type { Setup } from '../setup.ts';
import type { MeasuredSession } from './measuredFigures.ts';
import type { RoomFromTakes } from './roomFromTakes.ts';
import {
  BASS_TO_HZ,
  bandValues,
  fittedBands,
  type OpenFigures,
  sideValues,
} from './roomFromTakesFigures.ts';
import { movedSides } from './roomFromTakesSides.ts';
import { decayText, sessionDecay } from './sessionDecay.ts';

/** null where nothing is to be written. */
export function roomEdit(
  setup: Setup,
  session: MeasuredSession,
  open: OpenFigures,
  values: readonly number[],
  { bands, sides }: Pick<RoomFromTakes, 'bands' | 'sides'>,
): Fix | null {
  const isWritten = new Set(sides.flatMap((one) => (one.isWritten ? [one.side] : [])));
  const edits = [
    ...sideEdits(setup, sideValues(open, values), isWritten),
    ...(bands.some((one) => one.isWritten) ? [decayEdit(setup, session, open, values)] : []),
  ];
  return edits.length === 0
    ? null
    : { title: `Fit the room to the takes of ${session.session}`, edits, safe: false };
}

function sideEdits(
  { room }: Setup,
  size_m: readonly [number, number, number],
  isWritten: ReadonlySet<string>,
): readonly SemanticEdit[] {
  return movedSides(room, size_m).flatMap(({ side, path, value_m }) => {
    if (!isWritten.has(side)) return [];
    const stated_m = room.plusMinus[path.join('.')];
    const half = stated_m === undefined ? '' : ` ± ${Math.round(stated_m * 1000)} mm`;
    return [{ do: 'set' as const, path, value: `${lengthText(value_m, room.habits)}${half}` }];
  });
}

/**
 * The whole block. Where the file has none, higher bands are those that the takes show, else those that the surfaces come to: a block
 * with the bass alone would make its last band hold for all above.
 */
function decayEdit(
  { room }: Setup,
  session: MeasuredSession,
  open: OpenFigures,
  values: readonly number[],
): SemanticEdit {
  const measured = room.space.decayTime_s === null ? sessionDecay(session) : [];
  const bands = fittedBands(open, bandValues(open, values)).map((band) => {
    const shown = measured.find(
      ({ frequency_hz }) =>
        BASS_TO_HZ < frequency_hz && Math.abs(Math.log2(frequency_hz / band.frequency_hz)) < 0.1,
    );
    return { ...band, decayTime_s: shown?.decayTime_s ?? band.decayTime_s, count: 1 };
  });
  return { do: 'set', path: ['space', 'decay_time'], value: decayText(bands) };
}
