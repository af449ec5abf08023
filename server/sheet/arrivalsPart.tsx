// Section "Arrivals": when the sound of each loudspeaker reaches each seat, what it waited for, and what delay is still wanted.

import type { VNode } from 'preact';
import type { Arrival, SeatFigures, Setup } from '../../core/setup.ts';
import { Legend } from './chart/legend.tsx';
import { percent } from './chart/plot.tsx';
import { SeatDelays } from './seatDelays.tsx';
import { Fold, Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { MISSING, shown } from './words.ts';

const BLOCK = 'M-12 -5 h24 v10 h-24 Z';

export function ArrivalsPart({ setup, show }: View): VNode {
  const seats = [...setup.seats].sort(
    (one, other) => rank(one, setup.referenceSeat) - rank(other, setup.referenceSeat),
  );
  return (
    <Section
      id="arrivals"
      title="Arrivals"
      brief={`In air at ${show.speed(setup.air.speedOfSound_m_s)}. Predicted from positions, latencies and delays; final only when measured.`}
    >
      {seats.length === 0 ? <p class="missing">No seat has been recorded.</p> : null}
      {seats.map((seat) =>
        seat.id === setup.referenceSeat ? (
          <div key={seat.id}>
            <h3>
              <ToSource path={['seats', seat.id]}>{seat.id}</ToSource>, the reference seat
            </h3>
            <SeatArrivals seat={seat} view={{ setup, show }} />
          </div>
        ) : (
          <Fold key={seat.id} id={`arrivals-${seat.id}`} summary={`Arrivals at ${seat.id}`}>
            <SeatArrivals seat={seat} view={{ setup, show }} />
          </Fold>
        ),
      )}
      <SeatDelays setup={setup} show={show} />
    </Section>
  );
}

function rank(seat: SeatFigures, referenceSeat: string | null): number {
  return seat.id === referenceSeat ? 0 : 1;
}

function SeatArrivals({ seat, view }: { readonly seat: SeatFigures; readonly view: View }): VNode {
  if (seat.arrivals.length === 0) return <p class="missing">Nothing sounds here yet.</p>;
  return (
    <>
      <Bars seat={seat} view={view} />
      <ArrivalTable seat={seat} view={view} />
    </>
  );
}

/** A bar a source, in three pieces that differ by form: flight solid, latency hatched, delay open. */
function Bars({
  seat,
  view: { setup, show },
}: {
  readonly seat: SeatFigures;
  readonly view: View;
}): VNode {
  const longest_s = Math.max(...seat.arrivals.map(total_s), 1e-6);
  return (
    <figure class="bars">
      <ul>
        {seat.arrivals.map((arrival) => (
          <li key={arrivalKey(arrival)} {...placeOf(sourcePath(setup, arrival.source))}>
            <span class="bar-name">{sourceName(arrival)}</span>
            <svg class="bar" height="14" width="100%" aria-hidden="true">
              {piecesOf(arrival).map(({ kind, from_s, time_s }) => (
                <rect
                  key={kind}
                  class={`piece piece-${kind}`}
                  x={percent(from_s / longest_s)}
                  width={percent(time_s / longest_s)}
                  y="1"
                  height="12"
                />
              ))}
            </svg>
            <span class="bar-figure">
              {arrival.arrival_s === null
                ? `${show.time(arrival.flight_s)} of flight`
                : show.time(arrival.arrival_s)}
            </span>
          </li>
        ))}
      </ul>
      <figcaption>
        <Legend
          entries={[
            { class: 'piece piece-flight', text: 'flight', mark: BLOCK },
            { class: 'piece piece-latency', text: 'latency on the way', mark: BLOCK },
            { class: 'piece piece-delay', text: 'delay dialled in', mark: BLOCK },
          ]}
        />
      </figcaption>
    </figure>
  );
}

function total_s(arrival: Arrival): number {
  return arrival.flight_s + (arrival.pathLatency_s ?? 0) + (arrival.pathDelay_s ?? 0);
}

function piecesOf(
  arrival: Arrival,
): readonly { readonly kind: string; readonly from_s: number; readonly time_s: number }[] {
  const latency_s = arrival.pathLatency_s ?? 0;
  const delay_s = arrival.pathDelay_s ?? 0;
  return [
    { kind: 'flight', from_s: 0, time_s: arrival.flight_s },
    { kind: 'latency', from_s: arrival.flight_s, time_s: latency_s },
    { kind: 'delay', from_s: arrival.flight_s + latency_s, time_s: delay_s },
  ].filter(({ time_s }) => 0 < time_s);
}

function ArrivalTable({ seat, view }: { readonly seat: SeatFigures; readonly view: View }): VNode {
  return (
    <WideTable label={`Arrivals at ${seat.id}`}>
      <TableHead
        columns={[
          'source',
          { figures: 'distance' },
          { figures: 'flight' },
          { figures: 'latency' },
          { figures: 'delay' },
          { figures: 'arrives' },
          { figures: 'early by' },
          { figures: 'delay needed' },
          { figures: 'can be set to' },
          { figures: 'left over' },
        ]}
      />
      <tbody>
        {seat.arrivals.map((arrival) => (
          <ArrivalRow key={arrivalKey(arrival)} arrival={arrival} view={view} />
        ))}
      </tbody>
    </WideTable>
  );
}

function ArrivalRow({
  arrival,
  view: { setup, show },
}: {
  readonly arrival: Arrival;
  readonly view: View;
}): VNode {
  const advice = arrival.adviceIndex === null ? undefined : setup.advice[arrival.adviceIndex];
  const path = sourcePath(setup, arrival.source);
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>{sourceName(arrival)}</ToSource>
      </th>
      <td class="number">{show.length(arrival.distance_m)}</td>
      <td class="number">{show.time(arrival.flight_s)}</td>
      <td class="number">{shown(arrival.pathLatency_s, show.time)}</td>
      <td class="number">{shown(arrival.pathDelay_s, show.time)}</td>
      <td class="number">{shown(arrival.arrival_s, show.time)}</td>
      <td class="number">{shown(arrival.early_s, show.time)}</td>
      <td class="number">{shown(arrival.neededDelay_s, show.time)}</td>
      <td class="number">
        {advice === undefined ? MISSING : <ToSource path={advice.path}>{advice.dialIn}</ToSource>}
      </td>
      <td class="number">{shown(advice?.residual_s ?? null, show.time)}</td>
    </tr>
  );
}

export function sourcePath(setup: Setup, id: string): readonly string[] {
  return [setup.room.subwoofers.some((sub) => sub.id === id) ? 'subwoofers' : 'speakers', id];
}

function sourceName({ source, set }: Arrival): string {
  return set === undefined ? source : `${source}, ${set}`;
}

/** A subwoofer that two sets share is heard in each. */
function arrivalKey({ source, set }: Arrival): string {
  return `${source} ${set ?? ''}`;
}
