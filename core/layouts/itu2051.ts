// The loudspeaker layouts of ITU-R BS.2051 with the ranges of azimuth and elevation that it allows.
//
// Ranges: as transcribed from BS.2051 in public data of the broadcasters' union (also in ITU-R BS.2127); the printed tables
// were not in hand. Channel names (L, Ls, Ltf …): from memory of the same tables. `channelNames.ts` holds the other spellings.

import { type Layout, type LayoutPosition, lfe, pair, single } from './position.ts';

const SOURCE = 'ITU-R BS.2051, loudspeaker layouts';

const FRONT_FIXED: readonly LayoutPosition[] = [
  ...pair('M+030', 'L', 'R', 30, 0),
  single('M+000', 'C', 0, 0),
];
const FRONT_WIDE: readonly LayoutPosition[] = [
  ...pair('M+030', 'L', 'R', [30, 45], 0),
  single('M+000', 'C', 0, 0),
];
/** The surrounds may stand up to 15° above the ears where no loudspeakers hang behind. */
const SURROUNDS_RAISED = pair('M+110', 'Ls', 'Rs', [100, 120], [0, 15]);
const SURROUNDS = pair('M+110', 'Ls', 'Rs', [100, 120], 0);
const SIDES_AND_BACKS: readonly LayoutPosition[] = [
  ...pair('M+090', 'Lss', 'Rss', [85, 110], 0),
  ...pair('M+135', 'Lrs', 'Rrs', [120, 150], 0),
];
const TOP_FRONT_30 = pair('U+030', 'Ltf', 'Rtf', [30, 45], [30, 55]);
const TOP_FRONT_45 = pair('U+045', 'Ltf', 'Rtf', [30, 45], [30, 55]);
const TOP_REAR_110 = pair('U+110', 'Ltr', 'Rtr', [100, 135], [30, 55]);
const TOP_BACK_135 = pair('U+135', 'Ltb', 'Rtb', [100, 150], [30, 55]);
const LFE = lfe('LFE1', 'LFE');

/** In the standard's order of systems, A to J. */
export const ITU_2051_LAYOUTS: readonly Layout[] = [
  layout('A', '0+2+0', [...pair('M+030', 'L', 'R', 30, 0)]),
  layout('B', '0+5+0', [...FRONT_FIXED, LFE, ...SURROUNDS_RAISED]),
  layout('C', '2+5+0', [...FRONT_FIXED, LFE, ...SURROUNDS_RAISED, ...TOP_FRONT_30]),
  layout('D', '4+5+0', [...FRONT_FIXED, LFE, ...SURROUNDS, ...TOP_FRONT_30, ...TOP_REAR_110]),
  layout('E', '4+5+1', [
    ...FRONT_FIXED,
    LFE,
    ...SURROUNDS,
    ...TOP_FRONT_30,
    ...TOP_REAR_110,
    single('B+000', 'Cbf', 0, [-30, -15]),
  ]),
  layout('F', '3+7+0', [
    ...FRONT_FIXED,
    ...pair('U+045', 'LH', 'RH', [30, 45], [30, 45]),
    ...pair('M+090', 'LS', 'RS', [60, 150], 0),
    ...pair('M+135', 'LB', 'RB', [60, 150], 0),
    single('UH+180', 'CH', 180, [45, 90]),
    single('LFE1', 'LFE1', [30, 90], [-30, -15]),
    single('LFE2', 'LFE2', [-90, -30], [-30, -15]),
  ]),
  layout('G', '4+9+0', [
    ...FRONT_WIDE,
    LFE,
    ...SIDES_AND_BACKS,
    ...TOP_FRONT_45,
    ...TOP_BACK_135,
    ...pair('M+SC', 'Lsc', 'Rsc', [5, 25], 0),
  ]),
  layout('H', '9+10+3', [
    ...pair('M+060', 'FL', 'FR', [45, 60], [0, 5]),
    single('M+000', 'FC', 0, [0, 5]),
    single('LFE1', 'LFE1', [30, 90], [-30, -15]),
    ...pair('M+135', 'BL', 'BR', [110, 135], [0, 15]),
    ...pair('M+030', 'FLc', 'FRc', [22.5, 30], [0, 5]),
    single('M+180', 'BC', 180, [0, 15]),
    single('LFE2', 'LFE2', [-90, -30], [-30, -15]),
    ...pair('M+090', 'SiL', 'SiR', 90, [0, 15]),
    ...pair('U+045', 'TpFL', 'TpFR', [45, 60], [30, 45]),
    single('U+000', 'TpFC', 0, [30, 45]),
    single('T+000', 'TpC', 0, 90),
    ...pair('U+135', 'TpBL', 'TpBR', [110, 135], [30, 45]),
    ...pair('U+090', 'TpSiL', 'TpSiR', 90, [30, 45]),
    single('U+180', 'TpBC', 180, [30, 45]),
    single('B+000', 'BtFC', 0, [-30, -15]),
    ...pair('B+045', 'BtFL', 'BtFR', [45, 60], [-30, -15]),
  ]),
  layout('I', '0+7+0', [...FRONT_WIDE, LFE, ...SIDES_AND_BACKS]),
  layout('J', '4+7+0', [...FRONT_WIDE, LFE, ...SIDES_AND_BACKS, ...TOP_FRONT_45, ...TOP_BACK_135]),
];

/** The layout of that name; undefined where the standard has none. */
export function layoutNamed(name: string): Layout | undefined {
  return ITU_2051_LAYOUTS.find((layout) => layout.name === name);
}

function layout(system: string, name: string, positions: readonly LayoutPosition[]): Layout {
  const also = name === '0+2+0' || name === '0+5+0' ? '; ITU-R BS.775' : '';
  return { name, system, positions, source: `${SOURCE}, system ${system}${also}` };
}
