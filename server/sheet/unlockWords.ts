// What a take makes known, in words.

import type { Unlock } from '../../core/measure/recipe.ts';

const UNLOCKS: Readonly<Record<Unlock, string>> = {
  arrival: 'arrival',
  polarity: 'polarity',
  level: 'level',
  response: 'response',
  decay: 'decay',
  'left-right-match': 'left against right',
  'crossover-sum': 'the sum at the crossover',
  'sub-alignment': "the subwoofer's delay and polarity",
  'seat-spread': 'spread between seats',
  'swapped-channels': 'left and right swapped',
  'average-for-eq': 'an average to fit EQ to',
};

export function unlockWords(unlock: Unlock): string {
  return UNLOCKS[unlock];
}
