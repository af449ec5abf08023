// What the rules of the field look at: curves at the reference seat, and where single figures still mean something.

import type { ChannelField, FieldFigures, SeatField } from '../../fieldFigures.ts';
import type { Setup } from '../../setup.ts';

/** Where single modes are told apart, if no decay says it better. */
const USUAL_SCHROEDER_HZ = 200;

export function referenceField({ field, referenceSeat }: Setup): SeatField | undefined {
  return field?.seats.find(({ seat }) => seat === referenceSeat);
}

/** Above it a single dip or peak is chance. */
export function singleTo_hz(field: FieldFigures): number {
  return field.schroeder_hz ?? USUAL_SCHROEDER_HZ;
}

/** A curve's name for messages: the channel, and the set where there are several. */
export function channelText({ channel, set }: Pick<ChannelField, 'channel' | 'set'>): string {
  return set === null ? channel : `${channel} (${set})`;
}
