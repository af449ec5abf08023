// The sheet's head: what an integrator looks at first, each figure with how sure it is.

import type { VNode } from 'preact';
import type { Arrival, CrossoverFigures, Setup } from '../../core/setup.ts';
import type { SettingValue } from '../../schema/model/room.ts';
import { type Fact, Facts } from './facts.tsx';
import { findingCounts, type Problems } from './findingsPart.tsx';
import { referenceText } from './levelsPart.tsx';
import { lowEndFacts } from './lowEnd/lowEndFacts.ts';
import { signOffFact } from './recordFact.ts';
import { phaseText, slopeText, smallTimeText } from './units.ts';
import type { View } from './view.ts';
import { listed, MISSING, typeset } from './words.ts';

export function Glance({ setup, show, problems }: View & { readonly problems: Problems }): VNode {
  return (
    <section class="glance" aria-labelledby="glance-title">
      <h2 id="glance-title">At a glance</h2>
      <Facts
        facts={[
          signOffFact(setup),
          findingsFact(setup, problems),
          referenceFact({ setup, show }),
          pairFact({ setup, show }),
          ...setup.crossovers.map((crossover) => crossoverFact(crossover, { setup, show })),
          ...setup.room.subwoofers.map(({ id }) => subFact(id, { setup, show })),
          ...lowEndFacts({ setup, show }),
          ...lfeFact({ setup, show }),
          latencyFact({ setup, show }),
        ]}
      />
      <p class="key-to-figures">
        <span class="value value-predicted">Slanted, on a dotted line</span>: predicted, waits for a
        measurement. <span class="value value-measured">Upright, framed</span>: measured. Upright:
        stated in the file, or computed from it by geometry alone.
      </p>
    </section>
  );
}

function findingsFact(setup: Setup, problems: Problems): Fact {
  const accepted = setup.findings.filter((finding) => finding.accepted !== null).length;
  return {
    name: 'Findings',
    value: findingCounts({ setup, problems }),
    path: [],
    note: accepted === 0 ? '' : `${accepted} more accepted`,
  };
}

function referenceFact(view: View): Fact {
  const position = view.setup.room.targets.monitorControl?.position ?? null;
  return {
    name: 'Reference level',
    value: referenceText(view),
    path: ['targets', 'reference_level'],
    standing: 'stated',
    note:
      position === null
        ? 'monitor control not recorded'
        : `monitor control at ${typeset(position)}`,
  };
}

/** Arrival of the front pair against each other at the reference seat. */
function pairFact({ setup, show }: View): Fact {
  const seat = setup.seats.find(({ id }) => id === setup.referenceSeat);
  const arrivalOf = (channel: string): Arrival | undefined => {
    const speaker = setup.room.speakers.find((one) => one.channel === channel);
    return seat?.arrivals.find(({ source }) => source === speaker?.id);
  };
  const left = arrivalOf('L');
  const right = arrivalOf('R');
  const base = { name: 'Left against right', path: ['speakers'] };
  if (left === undefined || right === undefined) {
    return { ...base, value: MISSING, note: 'no pair of L and R at the reference seat' };
  }
  const difference_m = Math.abs(left.distance_m - right.distance_m);
  const distance = show.smallLength(difference_m);
  if (left.arrival_s === null || right.arrival_s === null) {
    return { ...base, value: distance, note: 'in distance; arrivals are not known' };
  }
  const difference_s = left.arrival_s - right.arrival_s;
  const first = difference_s < 0 ? 'left' : 'right';
  return {
    ...base,
    value: smallTimeText(difference_s),
    standing: 'predicted',
    note: `${Math.abs(difference_s) < 5e-7 ? 'together' : `${first} first`}; ${difference_m < 5e-4 ? 'equally far' : `${distance} in distance`}`,
  };
}

function crossoverFact(crossover: CrossoverFigures, { show }: View): Fact {
  const { device, set, mains, path, current, practice, bypassed } = crossover;
  const name = `Crossover, ${set ?? shortList(mains)}`;
  if (current === null) {
    const start =
      practice === null
        ? ''
        : `; practice starts at ${show.frequency(practice.filter.frequency_hz)}, ${slopeText(practice.filter.slope_db_oct)}`;
    return {
      name,
      value: bypassed ? 'bypassed' : 'not dialled in',
      path,
      standing: 'stated',
      note: start.slice(2),
    };
  }
  return {
    name,
    value: `${show.frequency(current.filter.frequency_hz)}, ${slopeText(current.filter.slope_db_oct)}`,
    path,
    standing: 'predicted',
    note: `filtered by ${device}; ripple of the sum ${show.level(current.ripple_db)}, phase ${typeset(phaseText(current.phaseAtCrossover_rad))} there`,
  };
}

/** `left and right`, `left and 4 more`. */
function shortList(ids: readonly string[]): string {
  const [first, ...rest] = ids;
  return ids.length < 3 ? listed(ids) : `${first} and ${rest.length} more`;
}

/** Polarity, level and delay as the file has them. */
function subFact(id: string, { setup, show }: View): Fact {
  const values = setup.room.settings
    .filter(({ device }) => device === id)
    .flatMap((one) => one.values);
  const told = (control: string): SettingValue | undefined =>
    values.find((value) => value.control === control);
  const seat = setup.seats.find((one) => one.id === setup.referenceSeat);
  const arrival = seat?.arrivals.find(({ source }) => source === id);
  const polarity = told('polarity')?.told;
  const level = told('level')?.told;
  const said = [
    polarity === undefined ? null : `polarity ${polarity}`,
    level === undefined ? null : typeset(level),
  ].filter((word) => word !== null);
  return {
    name: `Subwoofer ${id}`,
    value: said.length === 0 ? MISSING : said.join(', '),
    path: ['subwoofers', id],
    standing: 'stated',
    note: arrival === undefined ? '' : arrivalNote(arrival, show),
  };
}

function arrivalNote({ pathDelay_s, early_s }: Arrival, show: View['show']): string {
  const arrives =
    early_s === null
      ? 'arrival not known'
      : early_s < 5e-6
        ? 'arrives last'
        : `arrives ${show.time(early_s)} before the last`;
  const delay = pathDelay_s === null ? 'delay not known' : `delay ${show.time(pathDelay_s)}`;
  return `${delay}, ${arrives}`;
}

function lfeFact({ setup, show }: View): readonly Fact[] {
  const { lfe } = setup.levels;
  if (lfe === null) return [];
  return [
    {
      name: 'LFE',
      value: `+${show.level(lfe.gain_db)}`.replace('+-', '−'),
      path: ['subwoofers', lfe.sub],
      standing: 'stated',
      note: `in band, made in ${lfe.sub}`,
    },
  ];
}

/** The longest way through the devices to a main loudspeaker. */
function latencyFact({ setup, show }: View): Fact {
  const speakers = new Set(setup.room.speakers.map(({ id }) => id));
  const paths = setup.signalPaths.filter(({ target }) => speakers.has(target));
  const known = paths.flatMap(({ latency_s, delay_s }) =>
    latency_s === null ? [] : latency_s + delay_s,
  );
  const missing = paths.filter(({ latency_s }) => latency_s === null).map(({ target }) => target);
  return {
    name: 'Total latency',
    value: known.length === 0 ? MISSING : show.time(Math.max(...known)),
    path: ['wiring'],
    standing: 'predicted',
    note: [
      'source to loudspeaker, delays included',
      missing.length === 0 ? '' : `not known for ${listed([...new Set(missing)])}`,
    ]
      .filter(Boolean)
      .join('; '),
  };
}
