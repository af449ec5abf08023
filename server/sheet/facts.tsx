// A row of facts: name, figure, how sure it is, a few words more.

import type { ComponentChildren, VNode } from 'preact';
import type { Path } from '../../schema/model/path.ts';
import { ToSource } from './source.tsx';
import { type Standing, StandingWord, Valued } from './standing.tsx';
import { MISSING } from './words.ts';

export interface Fact {
  readonly name: string;
  readonly value: ComponentChildren;
  readonly path: Path;
  /** `computed` where left out: follows from the file by geometry alone. */
  readonly standing?: Standing;
  readonly note?: ComponentChildren;
}

export function Facts({ facts }: { readonly facts: readonly Fact[] }): VNode {
  return (
    <dl class="facts">
      {facts.map(({ name, value, path, standing, note }) => (
        <div class="fact" key={name}>
          <dt>
            <ToSource path={path}>{name}</ToSource>
          </dt>
          <dd>
            <Valued standing={standing ?? 'computed'}>{value}</Valued>
            {value === MISSING || standing === undefined ? null : (
              <>
                {' '}
                <StandingWord standing={standing} />
              </>
            )}
            {note === undefined || note === '' ? null : <span class="note">{note}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
