// The text that `groundbass new facility` writes: where rooms and gear lie, and what every room is held to.

import { newChecks, startingChecks } from '../../record/newChecks.ts';

const LISTENING = newChecks(startingChecks(), 'asked')
  .map((edit) => (edit.do === 'set' ? `  ${edit.path.at(-1)}: ${edit.value}` : ''))
  .join('\n');

export const FACILITY_TEMPLATE: string = `# The facility: its rooms and gear files, its policies, its inventory. It applies to every room below this folder.
facility: 1
name: "My facility"
# Where they are, from this folder on: \`**\` stands for any folders, \`*\` for any part of a name.
gear: ["**/*.gear.yaml"]
rooms: ["**/*.room.yaml"]
policies:
  mix: { reference_level: 79 dBC, layouts: [0+2+0, 0+5+0], recheck: 12 months }
# What every room is listened to with before it is signed off. A list to start from: put it into your own words.
# At a moderate level and in short turns: loud sound harms hearing.
listening:
${LISTENING}
# items:
#   sub_a: { gear: my_sub, serial: "0001" }
`;
