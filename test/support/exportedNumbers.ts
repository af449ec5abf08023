// Which numbers a source file exports, by name: constants, results and parameters of functions, fields of interfaces and types.

import { withoutComments } from './sources.ts';

/** A number, several of them, a number that may be missing. */
const NUMBER = String.raw`(?:readonly\s+)?\(?(?:number|\[[^\]]*\bnumber\b[^\]]*\]|Readonly<Record<string,\s*number>>|Float64Array)(?:\s*\|\s*null)?\)?(?:\[\])*(?:\s*\|\s*(?:null|undefined))?`;
const FIELD = new RegExp(
  String.raw`(?:^|[{;(,]|\breadonly\s)\s*([A-Za-z_$][\w$]*)\??:\s*${NUMBER}\s*(?=[;,)}=\n])`,
  'gm',
);
const CONSTANT = new RegExp(String.raw`^export const (\w+): ${NUMBER}\s*=`, 'gm');
const RESULT = new RegExp(String.raw`^export function (\w+)[^{]*?\): ${NUMBER}\s*\{`, 'gm');

/** Names in the order in which they stand; a name may come more than once. */
export function exportedNumbers(source: string): readonly string[] {
  const text = withoutComments(source);
  const blocks = exportedTypes(text).concat(exportedSignatures(text));
  return [
    ...names(text, CONSTANT),
    ...names(text, RESULT),
    ...blocks.flatMap((block) => names(block, FIELD)),
  ];
}

/** Interfaces to their closing bracket, types to the semicolon before a line that starts anew. */
function exportedTypes(text: string): readonly string[] {
  const found = text.matchAll(
    /^export (?:declare )?(?:interface[\s\S]*?^\}|type[\s\S]*?;\n(?=\S|\n|$))/gm,
  );
  return [...found].map(([all]) => all);
}

/** From `export function name(` to the bracket that closes the parameters. */
function exportedSignatures(text: string): readonly string[] {
  return [...text.matchAll(/^export function \w+(?:<[^(]*>)?\(([\s\S]*?)\n?\): /gm)].map(
    ([, parameters = '']) => `(${parameters})`,
  );
}

function names(text: string, pattern: RegExp): readonly string[] {
  return [...text.matchAll(pattern)].map(([, name = '']) => name);
}
