// Section "Levels": the reference level, gain along the wires, what the subwoofers carry, LFE, and exposure.

import type { VNode } from 'preact';
import { Facts } from './facts.tsx';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { voltageText } from './units.ts';
import type { View } from './view.ts';
import { listed, MISSING, shown, signed, typeset } from './words.ts';

export function LevelsPart({ setup, show }: View): VNode {
  return (
    <Section id="levels" title="Levels and headroom">
      <ReferenceFacts setup={setup} show={show} />
      <Gains setup={setup} show={show} />
      <Bass setup={setup} show={show} />
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

function Gains({ setup, show }: View): VNode | null {
  const told = setup.levels.connections.filter(
    ({ fromFull_v, toFull_v }) => fromFull_v !== null || toFull_v !== null,
  );
  if (told.length === 0) return null;
  return (
    <>
      <h3>Along the wires</h3>
      <WideTable label="Full level at both ends of each connection">
        <thead>
          <tr>
            <th scope="col">connection</th>
            <th scope="col" class="number">
              output at full level
            </th>
            <th scope="col" class="number">
              input takes
            </th>
            <th scope="col" class="number">
              margin
            </th>
          </tr>
        </thead>
        <tbody>
          {told.map(({ connection, fromFull_v, toFull_v, margin_db }) => {
            const wire = setup.room.wiring[connection];
            const path = ['wiring', String(wire?.index ?? connection)];
            return (
              <tr key={connection} {...placeOf(path)}>
                <th scope="row">
                  <ToSource path={path}>
                    {wire === undefined
                      ? MISSING
                      : `${wire.from.device}.${wire.from.port} → ${wire.to.device}.${wire.to.port}`}
                  </ToSource>
                </th>
                <td class="number">{shown(fromFull_v, voltageText)}</td>
                <td class="number">{shown(toFull_v, voltageText)}</td>
                <td class="number">
                  {margin_db === null ? MISSING : signed(margin_db, show.level(margin_db))}
                  {margin_db !== null && margin_db < -0.05 ? ' can clip' : ''}
                </td>
              </tr>
            );
          })}
        </tbody>
      </WideTable>
    </>
  );
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
            {channels.length === 0
              ? ': the bass of no channel'
              : `: the bass of ${listed(channels)}`}
            {lfe ? ', and LFE' : ''}
            {`. The same bass in all of them adds ${show.level(coherentSum_db)}.`}
          </li>
        ))}
      </ul>
    </>
  );
}

function Exposure({ setup }: View): VNode | null {
  const { exposure } = setup.levels;
  if (exposure === null) return null;
  const limit =
    24 <= exposure.hours
      ? 'within NIOSH’s recommended limit all day'
      : `${exposure.hours.toFixed(1)} hours a day by NIOSH’s recommended limit`;
  return (
    <p class="caution">
      {`All main channels at the reference level make ${exposure.level_dba.toFixed(0)} dBA at the seat: ${limit}. Local rules may be stricter.`}
    </p>
  );
}
