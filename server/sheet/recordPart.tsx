// Section "Record": which measurements are of the set-up as it is, and what has moved from one session to the next.

import type { VNode } from 'preact';
import type { RecordFigures, SessionRecord, Tie } from '../../core/record/recordFigures.ts';
import { Mark, type MarkKind } from './mark.tsx';
import { DriftTables } from './recordDrift.tsx';
import { stateText, tieText } from './recordText.ts';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { capitalised, counted, MISSING } from './words.ts';

export function RecordPart({ setup, show }: View): VNode | null {
  const { record } = setup;
  if (record === undefined) return null;
  return (
    <Section id="record" title="Record" brief={`${capitalised(stateText(record))}.`}>
      <Fingerprint record={record} />
      {record.sessions.length === 0 ? (
        <p class="missing">No measurements are recorded.</p>
      ) : (
        <Sessions sessions={record.sessions} />
      )}
      <DriftTables setup={setup} show={show} />
    </Section>
  );
}

/** Its digits by part, so that paper can be held against the file. */
function Fingerprint({ record: { fingerprint } }: { readonly record: RecordFigures }): VNode {
  const { text, parts } = fingerprint;
  if (text === null)
    return <p class="missing">The set-up has no fingerprint while a part of it cannot be read.</p>;
  return (
    <p class="fingerprint">
      {'Set-up '}
      <code>{text}</code>
      <span class="note">
        {parts.map(({ part, digits }) => `${part} ${digits ?? MISSING}`).join(' · ')}
      </span>
    </p>
  );
}

function Sessions({ sessions }: { readonly sessions: readonly SessionRecord[] }): VNode {
  return (
    <WideTable label="Sessions">
      <TableHead columns={['session', 'date', 'by', 'takes', 'state']} />
      <tbody>
        {sessions.map((one) => (
          <tr key={one.session} {...placeOf(one.path)}>
            <th scope="row">
              <ToSource path={one.path}>{one.session}</ToSource>
            </th>
            <td>{one.date ?? MISSING}</td>
            <td>{one.by ?? MISSING}</td>
            <td>{counted(one.takeCount, 'take')}</td>
            <td class="state">
              <TieState tie={one} />
            </td>
          </tr>
        ))}
      </tbody>
    </WideTable>
  );
}

const MARKS: Readonly<Record<Tie['tie'], MarkKind>> = {
  in_date: 'agrees',
  out_of_date: 'differs',
  untied: 'open',
  unknown: 'open',
};

/** A mark and its words. */
export function TieState({ tie }: { readonly tie: Pick<Tie, 'tie' | 'changed'> }): VNode {
  return (
    <>
      <Mark kind={MARKS[tie.tie]} /> {tieText(tie)}
    </>
  );
}
