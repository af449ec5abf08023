// Spellings of one channel: which of a layout's positions a name means, whether told as a label, a channel name or a habit of the trade.

import type { Layout, LayoutPosition } from './position.ts';

/**
 * Names that mean the same place: label first, then what it is called. A name may stand in several lines (`Ls` is M+110 in one
 * layout and M+090 in another); the layout decides.
 *
 * @source labels and the first names: ITU-R BS.2051; the others: common practice, no source
 */
const SAME_PLACE: readonly (readonly string[])[] = [
  ['M+030', 'L', 'left', 'FL'],
  ['M-030', 'R', 'right', 'FR'],
  ['M+000', 'C', 'centre', 'center', 'FC'],
  ['M+110', 'Ls', 'left_surround'],
  ['M-110', 'Rs', 'right_surround'],
  ['M+090', 'Lss', 'Lside', 'SiL', 'Ls'],
  ['M-090', 'Rss', 'Rside', 'SiR', 'Rs'],
  ['M+135', 'Lrs', 'Lsr', 'Lb', 'BL'],
  ['M-135', 'Rrs', 'Rsr', 'Rb', 'BR'],
  ['M+180', 'Cs', 'BC'],
  ['M+060', 'Lw', 'FL'],
  ['M-060', 'Rw', 'FR'],
  ['M+SC', 'Lsc', 'Lc'],
  ['M-SC', 'Rsc', 'Rc'],
  ['U+030', 'Ltf', 'Tfl', 'LH'],
  ['U-030', 'Rtf', 'Tfr', 'RH'],
  ['U+045', 'Ltf', 'Tfl', 'TpFL', 'LH'],
  ['U-045', 'Rtf', 'Tfr', 'TpFR', 'RH'],
  ['U+110', 'Ltr', 'Ltb', 'Tbl'],
  ['U-110', 'Rtr', 'Rtb', 'Tbr'],
  ['U+135', 'Ltb', 'Ltr', 'Tbl', 'TpBL'],
  ['U-135', 'Rtb', 'Rtr', 'Tbr', 'TpBR'],
  ['U+090', 'Ltm', 'TpSiL'],
  ['U-090', 'Rtm', 'TpSiR'],
  ['T+000', 'Ct', 'TpC'],
  ['B+000', 'Cbf', 'BtFC'],
  ['LFE1', 'LFE'],
];

/**
 * The position that a channel name means in a layout.
 *
 * The layout's own label and channel name are looked for before other spellings, upper and lower case alike.
 */
export function positionFor(layout: Layout, channel: string): LayoutPosition | undefined {
  const name = channel.toLowerCase();
  const is = (other: string) => other.toLowerCase() === name;
  return (
    layout.positions.find(({ label }) => is(label)) ??
    layout.positions.find((position) => is(position.channel)) ??
    layout.positions.find(({ label }) =>
      SAME_PLACE.some(([first, ...others]) => first === label && others.some(is)),
    )
  );
}

/** Whether a channel is low-frequency effects, in any layout. */
export function isLfeName(channel: string): boolean {
  return /^lfe\d?$/i.test(channel);
}

/** Every label and channel name that some layout has, for completion; channel names first. */
export function knownChannels(layouts: readonly Layout[]): readonly string[] {
  const positions = layouts.flatMap((layout) => layout.positions);
  return [
    ...new Set([
      ...positions.map(({ channel }) => channel),
      ...positions.map(({ label }) => label),
    ]),
  ];
}
