// `groundbass recipe`: which takes a room needs, in order, and what each makes known.

import { type Command, Option } from 'commander';
import { recipe } from '../../../core/measure/recipe.ts';
import { recipeLines, recipeYaml } from '../../measure/recipeWords.ts';
import { SIGNAL_CAUTIONS } from '../../measure/signalCautions.ts';
import { unlockWords } from '../../sheet/unlockWords.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

type Format = 'text' | 'json' | 'yaml';

export function addRecipe(program: Command, io: Io): void {
  program
    .command('recipe')
    .description('list the takes that a room needs, and what each makes known')
    .argument('<file>', 'a room file; - for standard input')
    .addOption(
      new Option(
        '-f, --format <format>',
        'text, json, or yaml to paste into a session of the room file',
      )
        .choices(['text', 'json', 'yaml'])
        .default('text'),
    )
    .addHelpText(
      'after',
      `
Record a wire from an output to a second input in each take (--loopback of analyse): without it there are no arrivals.

Examples:
  $ groundbass recipe rooms/heron.room.yaml
  $ groundbass recipe rooms/heron.room.yaml --format yaml
`,
    )
    .action((path: string, { format }: { readonly format: Format }) => print(path, format, io));
}

async function print(path: string, format: Format, io: Io): Promise<void> {
  const { room } = await readRoom(path, io);
  if (room.setup === null) throw new Misuse(`${path} cannot be read as a room`);
  const takes = recipe(room.setup);
  if (takes.length === 0) throw new Misuse(`${path} has no seat, or nothing that sounds`);
  if (format === 'json') {
    const listed = takes.map(({ unlocks, ...take }) => ({
      ...take,
      unlocks: unlocks.map((unlock) => ({ id: unlock, words: unlockWords(unlock) })),
    }));
    io.out(
      `${JSON.stringify({ version: 1, takes: listed, cautions: SIGNAL_CAUTIONS }, null, 2)}\n`,
    );
    return;
  }
  io.out(`${(format === 'yaml' ? recipeYaml(takes) : recipeLines(takes)).join('\n')}\n`);
  for (const caution of SIGNAL_CAUTIONS) io.err(`Caution: ${caution}\n`);
}
