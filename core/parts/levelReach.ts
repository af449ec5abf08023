// Part of Setup: what reaches the reference seat: each driver's and channel's most by band, pairs, attenuation, bass sums.

import type { GainChain } from '../levelFigures.ts';
import type { LevelFigures } from '../setup.ts';
import type { TracedPath } from '../signal/traced.ts';
import { attenuations } from './levels/attenuation.ts';
import { bassSums } from './levels/bassSums.ts';
import { createChannelReach } from './levels/channelReach.ts';
import { createDrivenWays, type DrivenOf } from './levels/driven.ts';
import { createHeardNoise, type Gears, seatNoises } from './levels/noise.ts';
import { createNoiseTrims } from './levels/noiseTrims.ts';
import { pairLevels } from './levels/pairLevels.ts';
import type { PathBand } from './levels/pathBands.ts';
import { createReach } from './levels/reach.ts';
import { reference_dbc } from './levels/wanted.ts';
import { memoPart } from './memo.ts';
import { referenceSeat } from './referenceSeat.ts';

export type LevelReach = Pick<
  LevelFigures,
  'reach' | 'channels' | 'pairs' | 'attenuation' | 'bassSums' | 'noise' | 'noiseTrims'
>;

export type WorkOutLevelReach = (
  room: DrivenOf,
  paths: readonly TracedPath[],
  chains: readonly GainChain[],
  bands: readonly (readonly PathBand[])[],
  gears: Gears,
) => LevelReach;

/** A worker. Of its inputs `chains` and `bands` are one a path, in their order; of ways on which nothing changed it knows already. */
export function createLevelReachPart(): WorkOutLevelReach {
  const reference = memoPart(['targets', 'policy'], reference_dbc);
  const drivenWays = createDrivenWays();
  const reachOf = createReach();
  const channelReach = createChannelReach();
  const heardNoise = createHeardNoise();
  const noiseTrims = createNoiseTrims();
  return (room, paths, chains, bands, gears) => {
    const level_dbc = reference(room);
    const seat = referenceSeat(room)?.id ?? null;
    const ways = drivenWays(room, paths, chains, bands);
    const reach = seat === null ? [] : reachOf(ways, seat, level_dbc);
    const attenuation = attenuations(room, ways, level_dbc);
    const heard = heardNoise(ways, gears, attenuation);
    return {
      reach,
      channels: channelReach(ways, level_dbc),
      pairs: pairLevels(ways),
      attenuation,
      bassSums: bassSums(room, paths, reach),
      noise: seatNoises(heard, ways, gears),
      noiseTrims: noiseTrims(heard, ways, gears),
    };
  };
}
