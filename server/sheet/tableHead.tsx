// The head row of a table: a word a column, those over figures set to the right like the figures.

import type { VNode } from 'preact';

export type Column = string | { readonly figures: string };

export function TableHead({ columns }: { readonly columns: readonly Column[] }): VNode {
  return (
    <thead>
      <tr>
        {columns.map((column) =>
          typeof column === 'string' ? (
            <th key={column} scope="col">
              {column}
            </th>
          ) : (
            <th key={column.figures} scope="col" class="number">
              {column.figures}
            </th>
          ),
        )}
      </tr>
    </thead>
  );
}
