// The recipe of takes in words, and as lines to paste into a room file.

import type { RecipeTake } from '../../core/measure/recipe.ts';
import { unlockWords } from '../sheet/unlockWords.ts';

export function recipeLines(takes: readonly RecipeTake[]): readonly string[] {
  return [...takes.flatMap(takeLines), ...otherLines(takes)];
}

function takeLines(
  { id, drive, sounding, seat, point, inverted, unlocks }: RecipeTake,
  index: number,
): readonly string[] {
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
}

/** Once a session, with no loudspeaker. */
function otherLines([first]: readonly RecipeTake[]): readonly string[] {
  if (first === undefined) return [];
  return [
    '    calibrator',
    '    a sound calibrator on the microphone, with the gain that the noise is recorded with: three seconds or more',
    '    makes known: sound pressure levels',
    '    noise',
    `    everything on, and nothing plays; microphone at ${first.seat}: ten seconds or more`,
    '    makes known: the background noise, against the curve that is asked for',
  ];
}

/** Lines of a session of the room file, with names for the files to be recorded. */
export function recipeYaml(takes: readonly RecipeTake[]): readonly string[] {
  const [first] = takes;
  return [
    ...(first === undefined
      ? []
      : [
          'calibrator: { file: measurements/calibrator.wav, level: 94 dB }',
          'noise:',
          `  quiet: { file: measurements/noise.wav, seat: ${first.seat} }`,
        ]),
    'takes:',
    ...takes.map(({ id, drive, sounding, seat, point, inverted, turnedTo = {} }) => {
      const turned = Object.entries(turnedTo);
      const untold = inverted.filter((sub) => turnedTo[sub] === undefined);
      const parts = [
        `file: measurements/${id.replaceAll('_', '-')}.wav`,
        ...(drive === null ? [] : [`drive: "${drive}"`]),
        `sounding: [${sounding.join(', ')}]`,
        point === null
          ? `seat: ${seat}`
          : `at: { x: ${point.x_m.toFixed(2)} m, y: ${point.y_m.toFixed(2)} m, z: ${point.z_m.toFixed(2)} m }`,
        'timing: loopback',
        ...(turned.length === 0
          ? []
          : [
              `changed: { ${turned.map(([sub, polarity]) => `${sub}: { polarity: ${polarity} }`).join(', ')} }`,
            ]),
        ...(untold.length === 0 ? [] : [`note: polarity of ${untold.join(' and ')} turned over`]),
      ];
      return `  ${id}: { ${parts.join(', ')} }`;
    }),
  ];
}
