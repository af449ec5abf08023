// Section "Listening": what to play and what to listen for, with how it came out, or boxes to fill in by hand.

import type { VNode } from 'preact';
import type { ListeningRecord } from '../../core/record/recordFigures.ts';
import { Mark, type MarkKind } from './mark.tsx';
import { LISTENING_CAUTION } from './recordText.ts';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { counted, MISSING, plainName } from './words.ts';

export function ListeningPart({ setup }: View): VNode | null {
  const checks = setup.record?.listening ?? [];
  if (checks.length === 0) return null;
  const open = checks.filter(({ state }) => state !== 'done');
  return (
    <Section
      id="listening"
      title="Listening"
      brief={open.length === 0 ? 'All done.' : `${counted(open.length, 'check')} to do.`}
    >
      <p class="caution">{LISTENING_CAUTION}</p>
      <WideTable label="Listening checks">
        <TableHead columns={['check', 'play', 'listen for', 'level', 'result', 'date, by']} />
        <tbody>
          {checks.map((check) => (
            <CheckRow key={check.check} check={check} />
          ))}
        </tbody>
      </WideTable>
    </Section>
  );
}

function CheckRow({ check }: { readonly check: ListeningRecord }): VNode {
  const { path, play, listenFor, level, state, date, by } = check;
  const place = path ?? ['listening'];
  return (
    <tr {...placeOf(place)}>
      <th scope="row">
        <ToSource path={place}>{plainName(check.check)}</ToSource>
        {path === null ? <span class="note">asked for by the facility</span> : null}
      </th>
      <td>{play ?? MISSING}</td>
      <td>{listenFor ?? MISSING}</td>
      <td>{level === null ? MISSING : `${level.level_db}\u00a0dB${level.weighting}`}</td>
      <td class="state">
        <Result check={check} />
      </td>
      <td class={state === 'done' ? undefined : 'by-hand'}>
        {state === 'done' ? [date, by].filter(Boolean).join(', ') || MISSING : <ToFillIn />}
      </td>
    </tr>
  );
}

const MARKS: Readonly<Record<NonNullable<ListeningRecord['result']>, MarkKind>> = {
  good: 'agrees',
  doubtful: 'open',
  bad: 'differs',
};

function Result({ check: { result, state } }: { readonly check: ListeningRecord }): VNode {
  if (state === 'done' && result !== null)
    return (
      <>
        <Mark kind={MARKS[result]} /> {result}
      </>
    );
  return (
    <span class="boxes">
      {['good', 'doubtful', 'bad'].map((word) => (
        <span key={word} class="box">
          {word}
        </span>
      ))}
      {state === 'before_change' ? (
        <span class="note">{`was ${result ?? 'open'} before the set-up changed`}</span>
      ) : null}
    </span>
  );
}

function ToFillIn(): VNode {
  return <span class="unseen">to be filled in by hand</span>;
}
