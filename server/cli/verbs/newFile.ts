// `groundbass new`: a first room, gear or facility file to go on from.

import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { FACILITY_TEMPLATE } from '../templates/facility.ts';
import { GEAR_TEMPLATE } from '../templates/gear.ts';
import { ROOM_TEMPLATE } from '../templates/room.ts';

export function addNew(program: Command, io: Io): void {
  const parent = program
    .command('new')
    .description('write a first room, gear or facility file')
    .addHelpText(
      'after',
      `
Examples:
  $ groundbass new facility
  $ groundbass new gear house         writes house.gear.yaml
  $ groundbass new room heron         writes heron.room.yaml
  $ groundbass new room heron --out - | groundbass check -
`,
    );
  const out = (): Option => new Option('-o, --out <file>', 'another place; - for standard output');
  const add = (kind: string, template: string, ending: string): void => {
    parent
      .command(kind)
      .description(`a ${kind} file with comments that teach the format`)
      .argument('<name>', 'its name: small letters, digits, - and _')
      .addOption(out())
      .action(async (name: string, options: { readonly out?: string }) => {
        if (!/^[a-z][a-z0-9_-]*$/.test(name))
          throw new Misuse(`${name} is no name: small letters, digits, - and _`);
        await write(options.out ?? `${name}.${ending}`, template, io);
      });
  };
  add('room', ROOM_TEMPLATE, 'room.yaml');
  add('gear', GEAR_TEMPLATE, 'gear.yaml');
  parent
    .command('facility')
    .description('a facility file: policies and inventory for many rooms')
    .addOption(out())
    .action((options: { readonly out?: string }) =>
      write(options.out ?? 'facility.yaml', FACILITY_TEMPLATE, io),
    );
}

async function write(out: string, text: string, io: Io): Promise<void> {
  if (out === '-') {
    io.out(text);
    return;
  }
  try {
    await io.writeFile(resolve(io.cwd, out), text, { isNew: true });
  } catch {
    throw new Misuse(`${out} cannot be written, or is there already`);
  }
  io.err(`${out} written\n`);
}
