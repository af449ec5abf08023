// The catalogue of problems: every fault that reading a file can tell, with why it matters and what to do.

import type { Severity } from './model/problem.ts';

export interface ProblemKind {
  readonly code: string;
  /** The usual severity; a problem that was understood all the same is a warning. */
  readonly severity: Severity;
  readonly title: string;
  readonly reason: string;
  readonly advice: string;
  /** A piece of a file that has the fault. */
  readonly example: string;
}

const kind = (
  code: string,
  severity: Severity,
  title: string,
  [reason, advice, example]: readonly [string, string, string],
): ProblemKind => ({ code, severity, title, reason, advice, example });

/** Codes are never renamed or reused. In the order in which pages list them. */
export const PROBLEM_KINDS: readonly ProblemKind[] = [
  kind('yaml/syntax', 'error', 'Not YAML', [
    'The text cannot be read from here to the end of the part that it belongs to; everything else is still read.',
    'Look for a bracket or a quote that is not closed, a colon that is missing, or a line that is indented differently from its neighbours.',
    'space: { size: { width: 4.62 m, depth: 6.18 m }',
  ]),
  kind('yaml/indentation', 'error', 'A line is indented differently from its neighbours', [
    'In YAML the indentation says what belongs to what, so it is not clear what this line belongs to.',
    'Indent it as the lines that it belongs with, by spaces only.',
    'seats:\n    mix: { at: unknown }\n  client: { at: unknown }',
  ]),
  kind('yaml/colon-missing', 'error', 'A colon is missing', [
    'A key is told from its value by a colon and a space; without it the line says nothing.',
    'Write the key, a colon, a space and the value.',
    'name Heron',
  ]),
  kind('yaml/space-after-colon', 'error', 'A space is missing after the colon', [
    'Without the space YAML reads key and value as one word.',
    'Put one space after the colon.',
    'space: { decay_time: {63 Hz:0.42 s} }',
  ]),
  kind('yaml/comma-in-value', 'error', 'A comma inside an unquoted value in braces', [
    'In braces a comma ends the value, so YAML would silently cut the text off.',
    'Put the whole value in quotes; in a number write a point in place of the comma.',
    'accepted:\n  shelf: { finding: layout/height, about: speakers.right, because: fixed, until lease ends }',
  ]),
  kind('yaml/text-cut', 'warning', 'Text is cut off at a comment', [
    'In YAML a `#` behind a space starts a comment, so the rest of this text is lost without a word.',
    'Put the value in quotes if the `#` belongs to it; if it is a comment, put a space behind the `#`.',
    'name: Studio #2',
  ]),
  kind('yaml/number-like', 'warning', 'Text that YAML takes for a number or a truth value', [
    'Other programs that read this file would lose leading zeros or the text itself. Groundbass reads what is written.',
    'Put it in quotes.',
    'name: 5.1',
  ]),
  kind('yaml/duplicate-key', 'error', 'The same key twice', [
    'Only one of the two can count; the first one does.',
    'Remove one of them, or rename it.',
    'seats:\n  mix: { at: unknown }\n  mix: { at: unknown }',
  ]),
  kind('yaml/equal-keys', 'error', 'Two keys with the same value', [
    'Both name the same frequency, so only one of the two can count.',
    'Remove one of them.',
    'space: { decay_time: { 63 Hz: 0.42 s, 0.063 kHz: 0.40 s } }',
  ]),
  kind('yaml/unsafe-key', 'error', 'A key that programs trip over', [
    'Whole numbers would be put into another order by many programs, and some words reach into the program itself.',
    'Use a name that starts with a letter.',
    'seats: { constructor: { at: unknown } }',
  ]),
  kind('yaml/odd-key', 'error', 'A key that is not a word', [
    'Keys of this format are plain words or quantities.',
    'Write the key as one word before a colon.',
    '? [a, b]\n: c',
  ]),
  kind('yaml/anchor', 'error', 'Anchors, aliases and merge keys are not used here', [
    'Two places would be one: dragging one loudspeaker would move the other.',
    'Write the values out at each place; the fix does it.',
    'seats:\n  mix: &place { at: unknown }',
  ]),
  kind('yaml/tag', 'error', 'Tags are not used here', [
    'The format itself says what each value is.',
    'Remove the tag.',
    'name: !!str Heron',
  ]),
  kind('yaml/documents', 'error', 'Several documents in one file', [
    'A file is one room, one list of gear or one facility; what follows the marker is not read.',
    'Put what follows into a file of its own.',
    'room: 1\n---\nroom: 1',
  ]),
  kind('yaml/directive', 'error', 'Directives are not used here', [
    'The format is YAML 1.2; a directive could change what the text means.',
    'Remove the line.',
    '%YAML 1.1\n---\nroom: 1',
  ]),
  kind('format/version-missing', 'error', 'The kind and version of the file are missing', [
    'The first key says which kind of file this is and which version of the format it follows.',
    'Write it as the first line.',
    'name: Heron',
  ]),
  kind('format/version-unknown', 'error', 'An unknown version of the format', [
    'This Groundbass does not know what the file means, so it checks and computes nothing; nothing in the file is lost or changed.',
    'Use a Groundbass that reads this version, or correct the number.',
    'room: 7',
  ]),
  kind('format/first-key', 'warning', 'The version is not the first key', [
    'People and programs look at the first line to see what a file is.',
    'Move the line to the top.',
    'name: Heron\nroom: 1',
  ]),
  kind('format/unknown-key', 'error', 'An unknown key', [
    'What stands under it is not looked at; it may be a typing slip, or from a newer Groundbass.',
    'Correct the key. Keys of your own begin with `x_` and are left alone.',
    'space: { size: { width: 4 m, depth: 5 m, hieght: 3 m } }',
  ]),
  kind('format/name-missing', 'error', 'A name is missing between a key and what it holds', [
    'Things have names, so that they can be followed, renamed and told apart.',
    'Put the name of the thing in between, as in `seats: { mix: { at: … } }`.',
    'seats: { at: { x: 1 m, y: 2 m, z: 1.2 m } }',
  ]),
  kind('format/missing-key', 'error', 'A key is missing', [
    'The record is of no use without it.',
    'Add it; write `unknown` if its value is not settled.',
    'space: { size: { width: 4 m, depth: 5 m } }',
  ]),
  kind('format/one-of', 'error', 'One of several keys is needed, or only one may be there', [
    'The keys are different ways to say the same thing, so exactly one of them says it.',
    'Keep one of them.',
    'space: { surfaces: { floor: { material: concrete, admittance: 0.02 } } }',
  ]),
  kind('format/goes-with', 'error', 'A key without the key that it goes with', [
    'The key means something only beside the other one.',
    'Add the other key, or remove this one.',
    'space: { size: { width: 4 m, depth: 5 m, height: 3 m }, ceiling: { front: 3 m, back: 2 m } }',
  ]),
  kind('format/empty-value', 'error', 'A key without a value', [
    'It is not clear whether the value is not known, or was forgotten.',
    'Write the value, `unknown` if it is not settled, or remove the key if it was not recorded.',
    'space: { air: { temperature: } }',
  ]),
  kind('format/wrong-type', 'error', 'Another kind of value is expected', [
    'A single value, a list and a map of keys are different things.',
    'Write it as the example in the message.',
    'wiring: desk.main_left -> left.in',
  ]),
  kind('format/not-a-choice', 'error', 'Not one of the choices', [
    'Only certain words mean something here.',
    'Use one of the words in the message.',
    'settings: { sub: { polarity: inverse } }',
  ]),
  kind('format/not-a-name', 'error', 'Not a name', [
    'Names are written in one way, so that they can be followed and renamed: a small letter, then small letters, digits and `_`.',
    'Change the name.',
    'seats: { Mix Position: { at: unknown } }',
  ]),
  kind('format/not-a-day', 'error', 'Not a day', [
    'Days are written as year, month, day, so that they are read alike everywhere.',
    'Write it as in 2026-10-12.',
    'surveyed: { date: 12.10.2026, by: R. Ames }',
  ]),
  kind('format/not-an-arrow', 'error', 'Not a connection', [
    'A connection says from which port to which port.',
    'Write the two ends with `->` between them.',
    'wiring: [desk.main_left = sub.in_left]',
  ]),
  kind('format/number-range', 'error', 'A number outside its range', [
    'Such a value cannot be meant here.',
    'Correct the number.',
    'space: { surfaces: { floor: { absorption: { 63 Hz: 20 } } } }',
  ]),
  kind('format/count', 'error', 'Too few, too many, or the same one twice', [
    'The list or map has to have another number of entries.',
    'Add or remove entries.',
    'space: { fixtures: { desk: { kind: obstacle, x: [1 m], y: [1 m, 2 m], z: [0 m, 1 m] } } }',
  ]),
  kind('quantity/unit-missing', 'error', 'A unit is missing', [
    'A bare number could be metres, feet or millimetres.',
    'Add the unit.',
    'space: { size: { width: 4620, depth: 6 m, height: 3 m } }',
  ]),
  kind('quantity/unit-unknown', 'error', 'An unknown unit', [
    'The unit is not one that the format knows, or is spelled in another way.',
    'Use the unit that the message offers.',
    'settings: { sub: { crossover: { frequency: 80 khz } } }',
  ]),
  kind('quantity/wrong-dimension', 'error', 'Another dimension is expected', [
    'A frequency cannot be a length.',
    'Write a quantity of the dimension that the message names.',
    'seats: { mix: { at: { x: 80 Hz, y: 1 m, z: 1.2 m } } }',
  ]),
  kind('quantity/decimal-comma', 'error', 'A decimal comma', [
    'A comma could also part thousands, and in braces it ends the value.',
    'Write a point.',
    'space: { size: { width: 4 m, depth: 5 m, height: "2,94 m" } }',
  ]),
  kind('quantity/not-a-quantity', 'error', 'Not a quantity', [
    'A number and its unit are expected.',
    'Write the quantity, or `unknown` if it is not settled.',
    'space: { air: { temperature: warm } }',
  ]),
  kind('quantity/spelling', 'warning', 'A quantity in another spelling', [
    'It was understood; one spelling keeps files searchable and differences small.',
    'Take the fix.',
    'space: { air: { temperature: 21.5°C } }',
  ]),
  kind('quantity/out-of-range', 'error', 'A quantity outside what is possible', [
    'Such a value cannot be in a real room.',
    'Correct the value or its unit.',
    'space: { air: { temperature: -300 °C } }',
  ]),
  kind('limits/too-large', 'error', 'The file is too large', [
    'No room needs this much text; it is not read, so that the editor stays quick.',
    'Keep measurements in files of their own.',
    '(a file of more than a million characters)',
  ]),
  kind('limits/too-deep', 'error', 'Nested too deeply', [
    'No part of the format is nested this deeply; it is not read, so that the program stays sound.',
    'Remove the brackets or indentation.',
    '[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[',
  ]),
  kind('limits/too-many', 'error', 'Too many entries or problems', [
    'The rest is not read or not told, so that the editor stays quick.',
    'Solve the first ones, or remove what does not belong here.',
    '(a list of more than a hundred thousand entries)',
  ]),
];
