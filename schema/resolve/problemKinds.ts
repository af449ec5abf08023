// The catalogue of what resolve can tell: each code with why it matters and what to do, as the parse's own catalogue has it.

import type { Severity } from '../model/problem.ts';
import type { ProblemKind } from '../problems.ts';

const kind = (
  code: string,
  title: string,
  [reason, advice, example]: readonly [string, string, string],
  severity: Severity = 'error',
): ProblemKind => ({ code, severity, title, reason, advice, example });

/** Codes are never renamed or reused. In the order in which pages list them. */
export const RESOLVE_PROBLEM_KINDS: readonly ProblemKind[] = [
  kind('reference/gear', 'No such gear model', [
    'Without its model nothing is known of a thing but where it stands: no latency, no controls, no range.',
    'Correct the name, or add the model to a gear file of the facility.',
    'speakers: { left: { gear: heath_66, at: unknown } }',
  ]),
  kind('reference/model-twice', 'Two gear files with the same model', [
    'Which of the two a room means cannot be told; the first one counts.',
    'Rename or remove one of them.',
    'models: { heath_6: { kind: loudspeaker } }',
  ]),
  kind('reference/item', 'No such item', [
    'An item is looked up in facility.yaml, which says what model it is.',
    'Correct the name, or add the item to facility.yaml.',
    'subwoofers: { sub: { item: moor_z, at: unknown } }',
  ]),
  kind('reference/item-twice', 'One item in two places of a room', [
    'An item is a single thing with its serial number; it cannot stand in two places.',
    'Name another item in one of them, or the gear model.',
    'subwoofers: { sub: { item: moor_a, at: unknown }, sub_2: { item: moor_a, at: unknown } }',
  ]),
  kind(
    'reference/item-in-two-rooms',
    'One item in two rooms',
    [
      'An item is a single thing; while it works in one room it is missing in the other.',
      'Name another item in one of the rooms, or the gear model.',
      'subwoofers: { sub: { item: moor_a, at: unknown } }',
    ],
    'warning',
  ),
  kind('reference/name-twice', 'A name that something else has already', [
    'Speakers, subwoofers and devices share their names, so that a wire or a setting can mean only one of them.',
    'Rename one of them.',
    'speakers: { sub: { gear: heath_6, at: unknown } }\nsubwoofers: { sub: { gear: moor_12, at: unknown } }',
  ]),
  kind('reference/device', 'No such speaker, subwoofer or device', [
    'What the line says is about something that is not in this room, so it counts for nothing.',
    'Correct the name, or add the thing.',
    'wiring: [desk.main_left -> sub.in_left]',
  ]),
  kind('reference/speaker', 'No such speaker', [
    'What the line says is about something that is not in this room, so it counts for nothing.',
    'Correct the name, or add the speaker.',
    'sets: { far: { speakers: [lefft] } }',
  ]),
  kind('reference/subwoofer', 'No such subwoofer', [
    'What the line says is about something that is not in this room, so it counts for nothing.',
    'Correct the name, or add the subwoofer.',
    'sets: { far: { speakers: [], subwoofers: [subb] } }',
  ]),
  kind('reference/port', 'No such port', [
    'The gear model has no port of this name, so the connection leads nowhere.',
    'Correct the name, or add the port to the gear model.',
    'wiring: [desk.main_lefft -> sub.in_left]',
  ]),
  kind('reference/direction', 'An arrow against the signal', [
    'Signals go from outputs to inputs; a connection the other way round carries none.',
    'Turn the arrow round, or name the port that was meant.',
    'wiring: [sub.in_left -> desk.main_left]',
  ]),
  kind(
    'reference/wired-twice',
    'The same connection twice',
    [
      'The second line says nothing new; perhaps another port was meant.',
      'Remove one of them, or correct the port.',
      'wiring: [desk.main_left -> sub.in_left, desk.main_left -> sub.in_left]',
    ],
    'warning',
  ),
  kind('reference/seat', 'No such seat', [
    'Where a loudspeaker points, or where a take was measured, is then not known.',
    'Correct the name, or add the seat.',
    'speakers: { left: { gear: heath_6, at: unknown, aim: mixx } }',
  ]),
  kind('reference/wall', 'No such wall or surface', [
    'Surfaces, panels and flush mounts belong to the walls of this room: front, right, back and left of a box, or those that the plan names.',
    'Correct the name.',
    'space: { surfaces: { frnt: unknown } }',
  ]),
  kind('reference/fixture', 'No such fixture or surface', [
    'What a thing stands on is a fixture or a surface of this room.',
    'Correct the name, or add the fixture.',
    'speakers: { left: { gear: heath_6, at: unknown, mount: { stands_on: dsek } } }',
  ]),
  kind('reference/set', 'No such set of monitors', [
    'The setting would apply while a set is on that there is not.',
    'Correct the name, or add the set.',
    'settings: { desk: { sets: { farr: {} } } }',
  ]),
  kind('reference/channel', 'No such channel', [
    'Which place of the layout is meant cannot be told, so that its angle is not checked.',
    'Use a label of ITU-R BS.2051 or BS.775, such as L, C, LFE or M+110.',
    'speakers: { left: { gear: heath_6, channel: LL, at: unknown } }',
  ]),
  kind('reference/layout', 'No such layout', [
    'Angles and heights are checked against the layout that is named.',
    'Use a layout of ITU-R BS.2051, such as 0+2+0 or 4+5+0.',
    'targets: { layout: 0+6+0 }',
  ]),
  kind('reference/material', 'No such material', [
    'How much the surface absorbs is then not known, and no decay time follows from it.',
    'Correct the name, or give the absorption itself.',
    'space: { surfaces: { floor: { material: carpit_on_concrete } } }',
  ]),
  kind('reference/policy', 'No such policy', [
    'What the facility asks of this room cannot be looked up, so it is not checked.',
    'Correct the name, or add the policy to facility.yaml.',
    'policy: mixx',
  ]),
  kind('reference/finding', 'No such finding', [
    'A code that no finding has accepts or changes nothing.',
    'Correct the code; it stands beside each finding.',
    'accepted: { shelf: { finding: layout/hight, about: speakers.left, because: shelf fixed } }',
  ]),
  kind('reference/about', 'Nothing of this name in the room', [
    'A finding is accepted at one place; a place that is not there accepts nothing.',
    'Correct the path: keys from the top of the file, joined by dots.',
    'accepted: { shelf: { finding: layout/height, about: speakers.lefft, because: shelf fixed } }',
  ]),
  kind('reference/take', 'No such take', [
    'An average is made of takes of its own session.',
    'Correct the name, or add the take.',
    'sessions: { autumn: { date: 2026-11-03, averages: { area: { takes: [sub_mix], by: power } } } }',
  ]),
  kind('reference/file', 'No such file', [
    'What the file holds is missing from every figure that it would feed.',
    'Correct the path, which starts from the folder of this file, or add the file.',
    'sessions: { autumn: { date: 2026-11-03, takes: { a: { file: gone.wav, seat: mix } } } }',
  ]),
  kind('reference/response', 'A response file that cannot be taken as it stands', [
    'What cannot be read of it is missing from the loudspeaker; the room is worked out from what else the gear file says.',
    'Correct the file: in each line a frequency in Hz, a level in dB and, if known, a phase in degrees, without time of flight.',
    'models: { heath_6: { kind: loudspeaker, low_end: { response: responses/empty.txt } } }',
  ]),
  kind('reference/control', 'No such control', [
    'The gear model has no such control, so nobody can have dialled this in.',
    'Correct the name, or add the control to the gear model.',
    'settings: { sub: { loudness: 3 dB } }',
  ]),
  kind('reference/control-level', 'A setting in the wrong place', [
    'Some controls are there once for the whole device, others once for each port.',
    'Move it under `ports`, or beside it.',
    'settings: { sub: { delay: 1 ms } }',
  ]),
  kind('reference/choice', 'A position that the control does not have', [
    'Nobody can have dialled this in.',
    'Use a position that the message names.',
    'settings: { left: { tilt: dessk } }',
  ]),
  kind('reference/told-as', 'A delay told in another way than the device takes it', [
    'Devices take delays as a time, as samples, or as a length; each means another figure.',
    'Write it as the device shows it.',
    'settings: { sub: { ports: { driver: { delay: 0.42 m } } } }',
  ]),
  kind('reference/stage', 'No such stage', [
    'A path of a gear model goes through stages that the format knows, and through switches that the model has.',
    'Correct the name, or add the switch to the controls.',
    'models: { a: { kind: loudspeaker, inputs: [in], paths: [in -> levl -> driver], controls: {} } }',
  ]),
  kind('reference/alternative', 'An alternative changes what is not there', [
    'An overlay changes or removes things of the room, or adds whole ones.',
    'Correct the name, or write the new thing out in full.',
    'alternatives: { by_window: { change: { subwoofers: { subb: absent } } } }',
  ]),
  kind('format/span-backwards', 'A span that runs backwards', [
    'From and to are one way round everywhere, so that they can be compared.',
    'Swap the two values.',
    'space: { fixtures: { door: { kind: keep_clear, x: [1 m, 0 m], y: [0 m, 1 m] } } }',
  ]),
  kind('format/range-backwards', 'A control whose least value is more than its most', [
    'No value lies in such a range.',
    'Correct one of the two.',
    'models: { a: { kind: loudspeaker, controls: { level: { min: 0 dB, max: -20 dB } } } }',
  ]),
  kind('format/shares-sum', 'Shares that do not make a whole', [
    'The shares of one surface are parts of it: together they are 100 %.',
    'Correct one of them.',
    'space: { surfaces: { floor: { shares: { carpet_on_concrete: 80 %, parquet_on_concrete: 40 % } } } }',
  ]),
  kind('geometry/plan-corner-twice', 'Two corners of the plan in one place', [
    'A wall between them has no length.',
    'Correct one of the corners, or remove the wall.',
    'space: { plan: { a: { x: 0 m, y: 0 m }, b: { x: 0 m, y: 0 m }, c: { x: 4 m, y: 5 m } }, height: 3 m }',
  ]),
  kind('geometry/plan-crosses', 'A plan that crosses itself', [
    'Such walls enclose no room, so that nothing can be worked out from them.',
    'Write the corners in the order in which they follow one another round the room.',
    'space: { plan: { a: { x: 0 m, y: 0 m }, b: { x: 4 m, y: 5 m }, c: { x: 4 m, y: 0 m }, d: { x: 0 m, y: 5 m } }, height: 3 m }',
  ]),
];
