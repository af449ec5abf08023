// Placement tasks for tests and benches: equal subs that may be set to nothing, judged by the stored data's own cost.
import { levelCost } from '../../core/search/placementCost.ts';
import type { PlacementTask, SearchedSub } from '../../core/search/searchTask.ts';
import type { TransferMap } from '../../core/search/transferMap.ts';

/** In phase, equal, no settings. */
export function plainSub(map: TransferMap, index = 0): SearchedSub {
  const count = map.frequency_hz.length;
  return {
    id: `sub_${index + 1}`,
    map,
    drive: { re: new Float64Array(count).fill(1), im: new Float64Array(count) },
    setting: { level_db: 0, delay_s: 0, inverted: false },
    ranges: { level_db: null, delay_s: null, canInvert: false },
  };
}

/** Mean over the seats of the deviation over frequency, and the mean over frequency of the deviation over the seats. */
export function plainTask(
  map: TransferMap,
  subCount: number,
  part: Partial<PlacementTask> = {},
): PlacementTask {
  return {
    subs: Array.from({ length: subCount }, (_, index) => plainSub(map, index)),
    fixed: null,
    channelCount: 1,
    target_db: null,
    cost: levelCost({
      flatnessWeights: new Array<number>(map.seatCount).fill(1 / map.seatCount),
      spreadWeight: 1,
      outputWeight: 0,
    }),
    referenceSeatIndex: 0,
    apart_m: 0,
    candidateCount: 5,
    different_m: 0.75,
    halves: null,
    crossover_hz: null,
    ...part,
  };
}
