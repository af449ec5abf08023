// Section "Levels": the reference level, what a meter should read, gain along the wires, what the subwoofers carry, exposure.

import type { VNode } from 'preact';
import type { Setup } from '../../core/setup.ts';
import type { Connection } from '../../schema/model/room.ts';
import { type Fact, Facts } from './facts.tsx';
import { Calibration, NamedReferences } from './levels/calibration.tsx';
import { GainChains } from './levels/gainChains.tsx';
import { Reach } from './levels/reach.tsx';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import { voltageText } from './units.ts';
import type { View } from './view.ts';
import { listed, MISSING, shown, signed, typeset } from './words.ts';

export function LevelsPart({ setup, show }: View): VNode {
  return (
    <Section id="levels" title="Levels and headroom">
      <ReferenceFacts setup={setup} show={show} />
      <NamedReferences setup={setup} show={show} />
      <Calibration setup={setup} show={show} />
      <Gains setup={setup} show={show} />
      <GainChains setup={setup} show={show} />
      <Bass setup={setup} show={show} />
      <Reach setup={setup} show={show} />
      <Exposure setup={setup} show={show} />
    </Section>
  );
}

/** `79 dBC`. */
export function referenceText({ setup }: View): string {
  const { stated_db, weighting } = setup.levels.reference;
  return stated_db === null ? MISSING : `${stated_db} dB${weighting ?? ''}`;
}

function ReferenceFacts({ setup, show }: View): VNode {
  const { reference, lfe } = setup.levels;
  const path = ['targets', 'reference_level'];
  const position = setup.room.targets.monitorControl?.position ?? null;
  return (
    <Facts
      facts={[
        {
          name: 'Reference level',
          value: referenceText({ setup, show }),
          path,
          standing: 'stated',
          note: [
            reference.from === 'policy' ? 'from the facility’s policy' : '',
            position === null ? '' : `monitor control at ${typeset(position)}`,
          ]
            .filter(Boolean)
            .join('; '),
        },
        {
          name: 'By channel count',
          value: shown(reference.byChannelCount_dba, (level) => `${level.toFixed(1)} dBA`),
          path,
          note: `${reference.channelCount} main channels`,
        },
        {
          name: 'By volume',
          value: shown(reference.byVolume_db, (level) => `${level.toFixed(0)} dBC`),
          path,
          note: 'what rooms of this volume are usually set to',
        },
        ...monitorFact(setup, show),
        {
          name: 'LFE gain',
          value: lfe === null ? MISSING : signed(lfe.gain_db, show.level(lfe.gain_db)),
          path: lfe === null ? ['wiring'] : ['subwoofers', lfe.sub],
          note:
            lfe === null
              ? 'no LFE is wired'
              : `in band, at ${lfe.sub}; low-pass ${lfe.lowPass_hz === null ? 'not known' : show.frequency(lfe.lowPass_hz)}`,
        },
      ]}
    />
  );
}

/** How far the monitor control stands below its top at the reference level, as the gear files tell. */
function monitorFact(setup: Setup, show: View['show']): readonly Fact[] {
  const all = setup.levels.attenuation ?? [];
  const [most] = all.toSorted((a, b) => b.surplus_db - a.surplus_db);
  if (most === undefined) return [];
  const path = ['targets', 'monitor_control'];
  return [
    {
      name: 'Turned down at the reference level',
      value: 0 <= most.surplus_db ? show.level(most.surplus_db) : 'cannot be reached',
      path,
      standing: 'predicted',
      note:
        0 <= most.surplus_db
          ? `from full at ${most.target}, free field; as numbers ${show.level(most.digital_db)}`
          : `${show.level(-most.surplus_db)} short at ${most.target}, free field`,
    },
  ];
}

type Gain = Setup['levels']['connections'][number];

/** Connections between the same two devices with the same figures. */
interface GainGroup {
  readonly first: Gain;
  readonly wires: readonly Connection[];
}

function gainGroups({ room, levels }: Setup): readonly GainGroup[] {
  const groups = new Map<string, { readonly first: Gain; readonly wires: Connection[] }>();
  for (const gain of levels.connections) {
    const wire = room.wiring[gain.connection];
    if (wire === undefined || (gain.fromFull_v === null && gain.toFull_v === null)) continue;
    const ends = [wire.from.device, wire.to.device, gain.fromFull_v, gain.toFull_v];
    const group = groups.get(JSON.stringify(ends));
    if (group === undefined) groups.set(JSON.stringify(ends), { first: gain, wires: [wire] });
    else group.wires.push(wire);
  }
  return [...groups.values()];
}

function Gains({ setup, show }: View): VNode | null {
  const groups = gainGroups(setup);
  if (groups.length === 0) return null;
  return (
    <>
      <h3>Along the wires</h3>
      <WideTable label="Full level at both ends of each connection">
        <TableHead
          columns={[
            'connection',
            { figures: 'output at full level' },
            { figures: 'input takes' },
            { figures: 'margin' },
          ]}
        />
        <tbody>
          {groups.map((group) => (
            <GainRow key={group.first.connection} group={group} show={show} />
          ))}
        </tbody>
      </WideTable>
    </>
  );
}

function GainRow({
  group: { first, wires },
  show,
}: {
  readonly group: GainGroup;
  readonly show: View['show'];
}): VNode {
  const [wire] = wires;
  const path = ['wiring', String(wire?.index ?? first.connection)];
  const { fromFull_v, toFull_v, margin_db } = first;
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>
          {wire === undefined ? MISSING : wireText(wire, wires.length)}
        </ToSource>
        {wires.length < 2 ? null : <span class="note">{`${wires.length} connections`}</span>}
      </th>
      <td class="number">{shown(fromFull_v, voltageText)}</td>
      <td class="number">{shown(toFull_v, voltageText)}</td>
      <td class="number">
        {margin_db === null ? MISSING : signed(margin_db, show.level(margin_db))}
        {margin_db !== null && margin_db < -0.05 ? ' can clip' : ''}
      </td>
    </tr>
  );
}

/** One by its ports, several by their devices. */
function wireText({ from, to }: Connection, count: number): string {
  return count < 2
    ? `${from.device}.${from.port} → ${to.device}.${to.port}`
    : `${from.device} → ${to.device}`;
}

function Bass({ setup, show }: View): VNode | null {
  if (setup.levels.bass.length === 0) return null;
  return (
    <>
      <h3>What the subwoofers carry</h3>
      <ul class="plain">
        {setup.levels.bass.map(({ sub, channels, lfe, coherentSum_db }) => (
          <li key={sub} {...placeOf(['subwoofers', sub])}>
            <ToSource path={['subwoofers', sub]}>{sub}</ToSource>
            {`: ${carriedText(channels, lfe)}`}
            {coherentSum_db === 0
              ? '.'
              : `. The same bass in all of it at once adds ${show.level(coherentSum_db)}.`}
          </li>
        ))}
      </ul>
    </>
  );
}

function carriedText(channels: readonly string[], lfe: boolean): string {
  const parts = [
    ...(channels.length === 0 ? [] : [`the bass of ${listed(channels)}`]),
    ...(lfe ? ['LFE'] : []),
  ];
  return parts.length === 0 ? 'nothing yet' : listed(parts);
}

function Exposure({ setup }: View): VNode | null {
  const { exposure, lfePeak_dbc } = setup.levels;
  if (exposure === null) return null;
  const peak =
    lfePeak_dbc === undefined || lfePeak_dbc === null
      ? ''
      : ` The LFE at full scale peaks at ${lfePeak_dbc.toFixed(0)} dBC; the EU’s lower action value for peaks is 135 dBC.`;
  const limit =
    24 <= exposure.hours
      ? 'within NIOSH’s recommended limit all day'
      : `${exposure.hours.toFixed(1)} hours a day by NIOSH’s recommended limit`;
  return (
    <p class="caution">
      {`All main channels at the reference level make ${exposure.level_dba.toFixed(0)} dBA at the seat: ${limit}.${peak} Local rules may be stricter.`}
    </p>
  );
}
