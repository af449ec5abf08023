// The room alone: complex pressure per volume velocity from every source to every seat, on a grid of one's own.

import type { SeatTransfer } from '../fieldFigures.ts';
import { placedSources } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import { fieldContext, noFieldNote } from './context.ts';
import { methodOf, prepareRoomField } from './roomField.ts';

/** Boxes take any grid; finite elements must not be asked for what takes a minute. */
const MOST_HZ = { box: 1000, 'flat ceiling': 250, 'sloped ceiling': 160 } as const;

/**
 * @param frequency_hz ascending, > 0; what lies above 1 kHz (box), 250 Hz (level ceiling) or 160 Hz (sloped) is left out
 * @throws RangeError on a plan that no mesh fits
 */
export function roomTransfers(
  setup: Pick<Setup, 'room' | 'air'>,
  frequency_hz: readonly number[],
): readonly SeatTransfer[] {
  const shapeOnly = fieldContext(setup, []);
  if (shapeOnly === null) return [];
  const most_hz = MOST_HZ[methodOf(shapeOnly.fieldRoom.shape)];
  const grid_hz = frequency_hz.filter((f_hz) => 0 < f_hz && f_hz <= most_hz);
  const { fieldRoom, seats } = shapeOnly;
  const sources = placedSources(setup.room).filter(
    (source) => noFieldNote(shapeOnly, source) === null,
  );
  if (grid_hz.length === 0 || seats.length === 0 || sources.length === 0) return [];
  const listening = prepareRoomField(fieldRoom, grid_hz).listenAt(seats.map(({ at }) => at));
  const bySource = sources.map(({ id, at }) => ({ id, heard: listening(at) }));
  return seats.flatMap((seat, index) =>
    bySource.map(({ id, heard }) => ({
      seat: seat.id,
      source: id,
      frequency_hz: grid_hz,
      real_pa_s_m3: [...(heard[index]?.re ?? [])],
      imag_pa_s_m3: [...(heard[index]?.im ?? [])],
    })),
  );
}
