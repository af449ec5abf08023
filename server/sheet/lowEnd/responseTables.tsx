// The figures behind the charts of the low end: every seat and channel in a line, and the levels at band centres.

import type { VNode } from 'preact';
import type { FieldFigures, SeatField } from '../../../core/fieldFigures.ts';
import { Fold, WideTable } from '../section.tsx';
import { placeOf, ToSource } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { MISSING, signed, typeset } from '../words.ts';
import { type CurveGroup, curveGroups, groupTitle } from './curveGroups.ts';

export function ExtremesTable({
  field,
  setup,
  show,
}: View & { readonly field: FieldFigures }): VNode {
  return (
    <WideTable label="Dips and peaks at every seat" isTight>
      <TableHead
        columns={[
          'seat',
          'channel',
          'plays',
          { figures: 'median' },
          { figures: 'in one-third-octave bands' },
          { figures: 'deepest dip' },
          { figures: 'highest peak' },
        ]}
      />
      <tbody>
        {field.seats.flatMap((seat) =>
          curveGroups(field, seat).map((group, index) => (
            <ExtremesRow
              key={`${seat.seat} ${groupTitle(group)}`}
              seat={index === 0 ? seat.seat : null}
              isReference={seat.seat === setup.referenceSeat}
              path={['seats', seat.seat]}
              group={group}
              show={show}
            />
          )),
        )}
      </tbody>
    </WideTable>
  );
}

interface ExtremesRowProps {
  /** null below the seat's first row. */
  readonly seat: string | null;
  readonly isReference: boolean;
  readonly path: readonly string[];
  readonly group: CurveGroup;
  readonly show: View['show'];
}

function ExtremesRow({ seat, isReference, path, group, show }: ExtremesRowProps): VNode | null {
  const { extremes } = group.first;
  if (extremes === null) return null;
  const { from_hz, to_hz, median_db, plusMinus_db, dip, peak } = extremes;
  const at = ({ frequency_hz, level_db }: typeof dip): string =>
    `${signed(level_db, show.level(level_db))} at ${show.frequency(frequency_hz)}`;
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        {seat === null ? (
          ''
        ) : (
          <>
            <ToSource path={path}>{seat}</ToSource>
            {isReference ? ' (reference)' : ''}
          </>
        )}
      </th>
      <td>{groupTitle(group)}</td>
      <td>{`${show.frequency(from_hz)} to ${show.frequency(to_hz)}`}</td>
      <td class="number">{`${show.level(median_db)} SPL`}</td>
      <td class="number">{`±${show.level(plusMinus_db)}`}</td>
      <td class="number">{at(dip)}</td>
      <td class="number">{at(peak)}</td>
    </tr>
  );
}

/** Nominal band centres. @source IEC 61260-1, one-third-octave bands */
const CENTRES_HZ = [20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200];

/** At the reference seat: level, and between which levels it may lie. */
export function LevelsTable({
  field,
  seat,
  show,
}: {
  readonly field: FieldFigures;
  readonly seat: SeatField;
  readonly show: View['show'];
}): VNode {
  const groups = curveGroups(field, seat);
  return (
    <Fold id="low-end-levels" summary="Levels at the reference seat by frequency">
      <WideTable label="Levels at the reference seat by frequency" isTight>
        <TableHead
          columns={[
            { figures: 'frequency' },
            ...groups.map((group) => ({ figures: groupTitle(group) })),
          ]}
        />
        <tbody>
          {CENTRES_HZ.map((centre_hz) => (
            <tr key={centre_hz}>
              <th scope="row" class="number">
                {show.frequency(centre_hz)}
              </th>
              {groups.map(({ first, ...group }) => (
                <td key={groupTitle({ first, ...group })} class="number">
                  {levelText(first, nearest(field.frequency_hz, centre_hz))}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </WideTable>
    </Fold>
  );
}

function levelText(
  { level_db, lower_db, upper_db }: CurveGroup['first'],
  index: number | null,
): string {
  const level = index === null ? undefined : level_db[index];
  if (index === null || level === undefined) return MISSING;
  const [lower, upper] = [lower_db?.[index], upper_db?.[index]];
  const text = `${level.toFixed(0)} dB`;
  return typeset(
    lower === undefined || upper === undefined
      ? text
      : `${text} (${lower.toFixed(0)} to ${upper.toFixed(0)})`,
  );
}

/** The grid's nearest frequency, if it is within a step of it. */
function nearest(frequency_hz: readonly number[], centre_hz: number): number | null {
  const off = frequency_hz.map((f_hz) => Math.abs(Math.log2(f_hz / centre_hz)));
  const least = off.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  return least < 0.02 ? off.indexOf(least) : null;
}
