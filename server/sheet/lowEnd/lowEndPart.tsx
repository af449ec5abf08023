// Section "Low end": what the room makes of every channel at every seat, both polarities, and how far to trust it.

import type { VNode } from 'preact';
import type { FieldFigures } from '../../../core/fieldFigures.ts';
import { Section } from '../section.tsx';
import { ToSource } from '../source.tsx';
import type { View } from '../view.ts';
import { ChannelCharts } from './channelCharts.tsx';
import { DecayChart } from './decayChart.tsx';
import { EqFits } from './eqFits.tsx';
import { PlanMaps } from './planMaps.tsx';
import { PolarityCharts } from './polarityCharts.tsx';
import { ExtremesTable, LevelsTable } from './responseTables.tsx';
import { SeatCharts } from './seatCharts.tsx';
import { Trust } from './trust.tsx';

export function LowEndPart({ setup, show }: View): VNode {
  const { field } = setup;
  return (
    <Section
      id="low-end"
      title="Low end"
      brief="Loudspeakers, filters, delays and the room together, 20 to 200 Hz. Predicted, until measured."
    >
      {field === undefined ? (
        <p class="missing">Being worked out …</p>
      ) : field === null || field.seats.every(({ channels }) => channels.length === 0) ? (
        <p class="missing">Not computed for this room: the notes below say why.</p>
      ) : (
        <Known field={field} setup={setup} show={show} />
      )}
    </Section>
  );
}

function Known({ field, setup, show }: View & { readonly field: FieldFigures }): VNode {
  const seat = field.seats.find((one) => one.seat === setup.referenceSeat);
  const view = { field, setup, show };
  return (
    <>
      {seat === undefined ? null : (
        <>
          <h3>
            {'At '}
            <ToSource path={['seats', seat.seat]}>{seat.seat}</ToSource>
          </h3>
          <ChannelCharts {...view} seat={seat} />
        </>
      )}
      <ExtremesTable {...view} />
      {seat === undefined ? null : <LevelsTable field={field} seat={seat} show={show} />}
      <SeatCharts {...view} />
      <PolarityCharts {...view} />
      <EqFits setup={setup} show={show} />
      {seat === undefined ? null : <DecayChart {...view} seat={seat} />}
      <PlanMaps {...view} />
      <Trust field={field} show={show} />
    </>
  );
}
