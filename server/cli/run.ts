// Runs one command line: which verbs there are, and which exit code their outcome becomes.
//
// A verb is loaded when it is asked for, and all of them for the list.

import { Command, CommanderError } from 'commander';
import { VERSION } from '../version.ts';
import type { Io } from './io.ts';
import { EXIT, Misuse } from './misuse.ts';
/** Where a verb leaves its exit code. */
export interface Outcome {
  code: number;
}

type AddVerb = (program: Command, io: Io, outcome: Outcome) => void;

/** In the order of the help. */
const VERBS: Readonly<Record<string, () => Promise<AddVerb>>> = {
  check: async () => (await import('./verbs/check.ts')).addCheck,
  figures: async () => (await import('./verbs/figures.ts')).addFigures,
  sheet: async () => (await import('./verbs/sheet.ts')).addSheet,
  place: async () => (await import('./verbs/place.ts')).addPlace,
  fit: async () => (await import('./verbs/fit.ts')).addFit,
  'fit-room': async () => (await import('./verbs/fitRoom.ts')).addFitRoom,
  explain: async () => (await import('./verbs/explain.ts')).addExplain,
  new: async () => (await import('./verbs/newFile.ts')).addNew,
  schema: async () => (await import('./verbs/schema.ts')).addSchema,
  sweep: async () => (await import('./verbs/sweep.ts')).addSweep,
  noise: async () => (await import('./verbs/noise.ts')).addNoise,
  analyse: async () => (await import('./verbs/analyse.ts')).addAnalyse,
  recipe: async () => (await import('./verbs/recipe.ts')).addRecipe,
  record: async () => (await import('./verbs/record.ts')).addRecord,
  lsp: async () => (await import('./verbs/lsp.ts')).addLsp,
};

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
  const [first = ''] = args;
  const wanted = Object.hasOwn(VERBS, first) ? [VERBS[first]] : Object.values(VERBS);
  for (const load of wanted) (await load?.())?.(program, io, outcome);
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
