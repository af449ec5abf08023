// Channel and layout labels of ITU-R BS.2051 and BS.775: which words are labels.

import type { ResolveContext } from '../model/resolved.ts';
import { type Place, rangeOf, textOf } from './place.ts';
import { isFaulty, type Reading, tell } from './reading.ts';
import { unknownName } from './unknownName.ts';
import { missing, type Need } from './values.ts';

/** Layer, then the azimuth in degrees: M+030, U-110, UH+180, T+000; `SC` at a screen's edge. @source ITU-R BS.2051 */
const LABEL = /^(?:[BMUT]|UH)[+-](?:\d{3}|SC)$/;

/** Channel names of those labels, and what else the trade calls them. @source ITU-R BS.775, BS.2051; common practice */
const CHANNELS: readonly string[] = [
  ...['L', 'R', 'C', 'LFE', 'LFE1', 'LFE2', 'Ls', 'Rs', 'Cs', 'Lss', 'Rss', 'Lrs', 'Rrs'],
  ...['Lb', 'Rb', 'Lw', 'Rw', 'Lsc', 'Rsc', 'Ltf', 'Rtf', 'Ltb', 'Rtb', 'Ltr', 'Rtr', 'Ltm', 'Rtm'],
];

/** Sound systems A to J. @source ITU-R BS.2051 */
const LAYOUTS: readonly string[] = [
  ...['0+2+0', '0+5+0', '2+5+0', '4+5+0', '4+5+1', '3+7+0', '4+9+0', '9+10+3', '0+7+0', '4+7+0'],
];

/** The label as written; a word that is none is told and counts for nothing. */
export function referChannel(
  reading: Reading,
  place: Place,
  context: ResolveContext,
  need: Need,
): string | null {
  const channel = isFaulty(reading, place.path) ? null : textOf(place);
  if (channel === null) {
    missing(reading, place, need);
    return null;
  }
  if (isChannel(channel, context)) return channel;
  tellLabel(
    reading,
    place,
    'reference/channel',
    'No channel is called',
    context.channels ?? CHANNELS,
  );
  return null;
}

export function isChannel(word: string, { channels }: ResolveContext): boolean {
  return LABEL.test(word) || CHANNELS.includes(word) || (channels?.includes(word) ?? false);
}

export function referLayout(
  reading: Reading,
  place: Place,
  context: ResolveContext,
  need: Need,
): string | null {
  const layout = isFaulty(reading, place.path) ? null : textOf(place);
  if (layout === null) {
    missing(reading, place, need);
    return null;
  }
  const known = context.layouts ?? LAYOUTS;
  if (known.includes(layout) || LAYOUTS.includes(layout)) return layout;
  tellLabel(reading, place, 'reference/layout', 'No layout of ITU-R BS.2051 is called', known);
  return null;
}

function tellLabel(
  reading: Reading,
  place: Place,
  code: string,
  lead: string,
  known: readonly string[],
): void {
  const range = rangeOf(place);
  if (range === null) return;
  const name = textOf(place) ?? '';
  tell(reading, place, () => unknownName({ code, lead, name, range, known, plural: 'labels' }));
}
