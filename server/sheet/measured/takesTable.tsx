// Arrival, polarity and level of each take of a session, and how they compare with the plan.

import type { VNode } from 'preact';
import type { MeasuredSession, MeasuredTake } from '../../../core/measured/measuredFigures.ts';
import type { Show } from '../../../core/show.ts';
import { WideTable } from '../section.tsx';
import { drawingOf, placeOf, ToSource } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { listed, MISSING, shown, typeset } from '../words.ts';

export function TakesTable({
  session,
  setup,
  show,
}: View & { readonly session: MeasuredSession }): VNode {
  const summaryOf = (take: string): string | null =>
    setup.verification?.takes.find((one) => one.session === session.session && one.take === take)
      ?.summary ?? null;
  return (
    <WideTable label={`Takes of ${session.session}`}>
      <TableHead
        columns={[
          'take',
          'sounding',
          'microphone',
          { figures: 'arrival' },
          'polarity',
          { figures: 'level' },
          'against the plan',
        ]}
      />
      <tbody>
        {session.takes.map((take) => (
          <TakeRow key={take.take} take={take} summary={summaryOf(take.take)} show={show} />
        ))}
      </tbody>
    </WideTable>
  );
}

function TakeRow({
  take,
  summary,
  show,
}: {
  readonly take: MeasuredTake;
  readonly summary: string | null;
  readonly show: Show;
}): VNode {
  const name = (
    <th scope="row">
      <ToSource path={take.path}>{take.take}</ToSource>
    </th>
  );
  if (take.kind === null)
    return (
      <tr {...placeOf(take.path)} {...(take.isPending === true ? {} : drawingOf(take.path))}>
        {name}
        <td colspan={6}>{take.isPending === true ? 'being read …' : unreadText(take)}</td>
      </tr>
    );
  const { level, arrival_s, timing } = take;
  return (
    <tr {...placeOf(take.path)}>
      {name}
      <td>{soundingText(take)}</td>
      <td>{microphoneText(take, show)}</td>
      <td class="number">
        {shown(arrival_s, (time_s) => `${show.time(time_s)}${timing === 'acoustic' ? ' *' : ''}`)}
      </td>
      <td>{take.polarity ?? MISSING}</td>
      <td class="number">
        {level === null
          ? MISSING
          : typeset(`${show.level(level.level_db)}${level.basis === 'spl' ? ' SPL' : ''}`)}
      </td>
      <td>{typeset(summary ?? MISSING)}</td>
    </tr>
  );
}

function unreadText({ faults }: MeasuredTake): string {
  const [first] = faults.filter(({ severity }) => severity === 'error');
  return first === undefined ? 'not read' : `not read: ${first.message.replaceAll('`', '')}`;
}

function soundingText({ sounding, drive }: MeasuredTake): string {
  const heard = sounding.length === 0 ? MISSING : listed(sounding);
  return drive === null ? heard : `${heard}, driven on ${drive}`;
}

/** Its own place counts before the seat that it belongs to. */
export function microphoneText(
  { seat, at }: Pick<MeasuredTake, 'seat' | 'at'>,
  show: Show,
): string {
  if (at === null) return seat ?? MISSING;
  return [at.x_m, at.y_m, at.z_m].map((length_m) => show.length(length_m)).join(', ');
}
