// What the takes of a session cannot tell, and what is doubtful in them, in words.

import type { VNode } from 'preact';
import type { MeasuredSession } from '../../../core/measured/measuredFigures.ts';
import { Said } from '../said.tsx';
import { Fold } from '../section.tsx';
import { ToSource } from '../source.tsx';

export function Refusals({ session }: { readonly session: MeasuredSession }): VNode | null {
  const takes = session.takes
    .map(({ take, path, refusals, warnings }) => ({
      take,
      path,
      lines: [...refusals, ...warnings],
    }))
    .filter(({ lines }) => lines.length !== 0);
  if (takes.length === 0) return null;
  return (
    <Fold id={`refused-${session.session}`} summary="What these takes do not tell">
      <dl class="notes">
        {takes.map(({ take, path, lines }) => (
          <div key={take}>
            <dt>
              <ToSource path={path}>{take}</ToSource>
            </dt>
            <dd>
              {lines.map((line) => (
                <p key={line}>
                  <Said text={`${line}.`} />
                </p>
              ))}
            </dd>
          </div>
        ))}
      </dl>
    </Fold>
  );
}
