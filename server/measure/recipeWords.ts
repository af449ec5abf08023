// The recipe of takes in words, and as lines to paste into a room file.

import type { RecipeTake } from '../../core/measure/recipe.ts';
import { unlockWords } from '../sheet/unlockWords.ts';

export function recipeLines(takes: readonly RecipeTake[]): readonly string[] {
  return takes.flatMap((take, index) => {
    const { id, drive, sounding, seat, point, inverted, unlocks } = take;
    const place =
      point === null
        ? `at ${seat}`
        : `at ${point.x_m.toFixed(2)}, ${point.y_m.toFixed(2)}, ${point.z_m.toFixed(2)} m (x, y, z)`;
    const turned =
      inverted.length === 0
        ? ''
        : `, polarity of ${inverted.join(' and ')} turned over for this take`;
    return [
      `${String(index + 1).padStart(2)}  ${id}`,
      `    play on ${drive ?? 'the channel that feeds it (the file does not tell which)'}; only ${sounding.join(' and ')} sounding; microphone ${place}${turned}`,
      `    makes known: ${unlocks.map(unlockWords).join(', ')}`,
    ];
  });
}

/** Takes as the room file has them, with names for the files to be recorded. */
export function recipeYaml(takes: readonly RecipeTake[]): readonly string[] {
  return [
    'takes:',
    ...takes.map(({ id, drive, sounding, seat, point, inverted }) => {
      const parts = [
        `file: measurements/${id.replaceAll('_', '-')}.wav`,
        ...(drive === null ? [] : [`drive: "${drive}"`]),
        `sounding: [${sounding.join(', ')}]`,
        point === null
          ? `seat: ${seat}`
          : `at: { x: ${point.x_m.toFixed(2)} m, y: ${point.y_m.toFixed(2)} m, z: ${point.z_m.toFixed(2)} m }`,
        'timing: loopback',
        ...(inverted.length === 0
          ? []
          : [`note: polarity of ${inverted.join(' and ')} turned over`]),
      ];
      return `  ${id}: { ${parts.join(', ')} }`;
    }),
  ];
}
