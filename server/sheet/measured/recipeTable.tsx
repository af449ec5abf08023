// Which takes the room needs, in the order of the work, what each makes known, and which of them there are.

import type { VNode } from 'preact';
import { type RecipeState, recipeState } from '../../../core/measured/recipeState.ts';
import type { Show } from '../../../core/show.ts';
import { Fold, WideTable } from '../section.tsx';
import { ToSource } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import { unlockWords } from '../unlockWords.ts';
import type { View } from '../view.ts';
import { counted, listed, MISSING } from '../words.ts';
import { microphoneText } from './takesTable.tsx';

export function RecipeTable({ setup, show }: View): VNode | null {
  const states = recipeState(setup);
  if (states.length === 0) return null;
  const missing = states.filter(({ made }) => made === null).length;
  const summary =
    missing === 0
      ? `All ${states.length} takes of the recipe are there`
      : `${counted(missing, 'take')} of the recipe’s ${states.length} ${missing === 1 ? 'is' : 'are'} still to be made`;
  return (
    <Fold id="recipe" summary={summary}>
      <WideTable label="Takes that this room needs">
        <TableHead columns={['play on', 'only sounding', 'microphone', 'makes known', 'take']} />
        <tbody>
          {states.map((state) => (
            <RecipeRow key={state.wanted.id} state={state} show={show} />
          ))}
        </tbody>
      </WideTable>
    </Fold>
  );
}

function RecipeRow({
  state: { wanted, made },
  show,
}: {
  readonly state: RecipeState;
  readonly show: Show;
}): VNode {
  const { drive, sounding, seat, point, inverted, unlocks } = wanted;
  const turned = inverted.length === 0 ? '' : `, polarity of ${listed(inverted)} turned over`;
  return (
    <tr>
      <td>{drive ?? MISSING}</td>
      <td>{`${listed(sounding)}${turned}`}</td>
      <td>{microphoneText({ seat: point === null ? seat : null, at: point }, show)}</td>
      <td>{listed(unlocks.map(unlockWords))}</td>
      <td>
        {made === null ? (
          'still to be made'
        ) : (
          <ToSource path={made.path}>{`${made.take} of ${made.session}`}</ToSource>
        )}
      </td>
    </tr>
  );
}
