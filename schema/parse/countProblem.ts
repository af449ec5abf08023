// Faults of a list or map as a whole: too few or too many entries, or one of them twice.

import { exampleText } from '../exampleText.ts';
import type { Problem } from '../model/problem.ts';
import type { Fault } from './fault.ts';
import { problem } from './reading.ts';

/** The one problem of a list's or a map's count; null where nothing was said about it. */
export function countProblem({ node, entry, schema, path, errors }: Fault): Problem | null {
  const range = entry?.keyRange ?? node.range;
  const has = (keyword: string) => errors.some((error) => error.keyword === keyword);
  if (node.kind === 'list') {
    const twice = errors.find(({ keyword }) => keyword === 'uniqueItems');
    if (twice !== undefined) {
      const item = node.items[Math.max(Number(twice.params.i), Number(twice.params.j))];
      const name = item?.kind === 'scalar' ? `\`${item.text}\`` : 'the same';
      return problem('format/count', path, item?.range ?? range, `${name} is in this list twice`);
    }
    const { minItems, maxItems } = schema;
    if (!has('minItems') && !has('maxItems')) return null;
    const wanted =
      minItems === maxItems
        ? `${minItems} values are`
        : has('minItems')
          ? `at least ${minItems} values are`
          : `at most ${maxItems} values are`;
    const [example] = schema.examples ?? [];
    const such = example === undefined ? '' : `, such as \`${exampleText(example)}\``;
    return problem('format/count', path, node.range, `${wanted} expected here${such}`);
  }
  if (has('minProperties'))
    return problem(
      'format/count',
      path,
      range,
      `at least ${schema.minProperties} entries are expected here`,
    );
  if (has('maxProperties'))
    return problem(
      'format/count',
      path,
      range,
      `at most ${schema.maxProperties} entries are expected here`,
    );
  return null;
}
