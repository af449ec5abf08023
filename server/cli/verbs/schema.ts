// `groundbass schema`: the JSON Schemas of the three kinds of file, each in one document for other tools.

import { Argument, type Command } from 'commander';
import facility from '../../../schema/facility.schema.json';
import gear from '../../../schema/gear.schema.json';
import quantities from '../../../schema/quantities.schema.json';
import room from '../../../schema/room.schema.json';
import settings from '../../../schema/settings.schema.json';
import shared from '../../../schema/shared.schema.json';
import type { Io } from '../io.ts';

const KINDS = { room, gear, facility } as const;
const PARTS = { settings, shared, quantities } as const;

export function addSchema(program: Command, io: Io): void {
  program
    .command('schema')
    .description('print the JSON Schema (2020-12) of a kind of file')
    .addArgument(new Argument('[kind]', 'which file').choices(Object.keys(KINDS)).default('room'))
    .addHelpText(
      'after',
      `
The document holds all that it refers to. Other editors' YAML support can check the basic shape with it; quantities,
references and everything computed need groundbass.

Examples:
  $ groundbass schema room > room.schema.json
`,
    )
    .action((kind: keyof typeof KINDS) => {
      io.out(`${JSON.stringify(bundled(kind), null, 2)}\n`);
    });
}

/** Bundled as JSON Schema 2020-12, section 9.3, has it: each part under `$defs`, with the id that references name it by. */
function bundled(kind: keyof typeof KINDS): unknown {
  const whole: Readonly<Record<string, unknown>> = KINDS[kind];
  const defs: unknown = whole.$defs;
  const parts = Object.entries(PARTS).map(([name, part]) => [
    `${name}.schema.json`,
    { ...part, $id: `${name}.schema.json` },
  ]);
  return {
    ...whole,
    $id: `${kind}.schema.json`,
    $defs: { ...(typeof defs === 'object' ? defs : {}), ...Object.fromEntries(parts) },
  };
}
