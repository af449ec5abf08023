// Runs one command line: which verbs there are, and which exit code their outcome becomes.

import { Command, CommanderError } from 'commander';
import { VERSION } from '../version.ts';
import type { Io } from './io.ts';
import { EXIT, Misuse } from './misuse.ts';
import { addAnalyse } from './verbs/analyse.ts';
import { addCheck } from './verbs/check.ts';
import { addExplain } from './verbs/explain.ts';
import { addFigures } from './verbs/figures.ts';
import { addFit } from './verbs/fit.ts';
import { addLsp } from './verbs/lsp.ts';
import { addNew } from './verbs/newFile.ts';
import { addNoise } from './verbs/noise.ts';
import { addPlace } from './verbs/place.ts';
import { addRecipe } from './verbs/recipe.ts';
import { addSchema } from './verbs/schema.ts';
import { addSheet } from './verbs/sheet.ts';
import { addSweep } from './verbs/sweep.ts';

/** Where a verb leaves its exit code. */
export interface Outcome {
  code: number;
}

/** @returns 0 clean, 1 findings, 2 misuse or unreadable, 3 a fault of ours */
export async function run(args: readonly string[], io: Io): Promise<number> {
  const outcome: Outcome = { code: EXIT.clean };
  const program = new Command('groundbass')
    .description(
      'Works out what a room file implies: delays, modes, crossovers, layout, settings, and what is wrong.',
    )
    .version(VERSION, '-V, --version')
    .exitOverride()
    .configureOutput({ writeOut: io.out, writeErr: io.err, getOutHelpWidth: () => io.width })
    .showHelpAfterError('(try --help)')
    .addHelpText('after', HELP);
  for (const add of [
    addCheck,
    addFigures,
    addSheet,
    addPlace,
    addFit,
    addExplain,
    addNew,
    addSchema,
    addSweep,
    addNoise,
    addAnalyse,
    addRecipe,
    addLsp,
  ])
    add(program, io, outcome);
  for (const verb of program.commands) verb.copyInheritedSettings(program);
  try {
    if (args.length === 0) {
      program.outputHelp();
      return EXIT.clean;
    }
    await program.parseAsync(args, { from: 'user' });
    return outcome.code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.clean : EXIT.misuse;
    if (error instanceof Misuse) {
      io.err(`groundbass: ${error.message}\n`);
      return EXIT.misuse;
    }
    io.err(`groundbass: ${error instanceof Error ? (error.stack ?? error.message) : error}\n`);
    return EXIT.fault;
  }
}

const HELP = `
Exit codes: 0 clean, 1 findings at or above --fail-on, 2 misuse or unreadable, 3 a fault of groundbass.

Examples:
  $ groundbass check                     the whole facility below this folder
  $ groundbass figures rooms/heron.room.yaml | jq .space.volume_m3
  $ groundbass sheet rooms/heron.room.yaml --out heron.html
`;
