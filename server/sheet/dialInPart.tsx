// Section "What to dial in": device by device, each setting beside what the file has; then whatever else the file sets there.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { SettingAdvice, Setup } from '../../core/setup.ts';
import type { SettingValue } from '../../schema/model/room.ts';
import { LiveContext } from './live.ts';
import { Mark, type MarkKind } from './mark.tsx';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { counted, MISSING, plainValue, settingName, typeset } from './words.ts';

export function DialInPart({ setup }: View): VNode {
  const devices = devicesOf(setup);
  const differing = setup.advice.filter(({ agrees }) => agrees === false).length;
  const open = setup.advice.filter(({ agrees }) => agrees === null).length;
  return (
    <Section
      id="dial-in"
      title="What to dial in"
      brief={`${counted(differing, 'setting differs', 'settings differ')} from what is computed, ${open} not in the file. The file is a record: changing it changes no device.`}
    >
      {devices.length === 0 ? <p class="missing">Nothing to dial in is known yet.</p> : null}
      {devices.length === 0 ? null : (
        <WideTable label="Settings, device by device">
          <TableHead columns={['setting', 'dial in', 'state', 'in the file', 'why']} />
          {devices.map((device) => (
            <DeviceSettings key={device} device={device} setup={setup} />
          ))}
        </WideTable>
      )}
    </Section>
  );
}

function devicesOf(setup: Setup): readonly string[] {
  const { devices, subwoofers, speakers, settings } = setup.room;
  const inOrder = [...devices, ...subwoofers, ...speakers].map(({ id }) => id);
  const told = new Set([
    ...setup.advice.map(({ device }) => device),
    ...settings.map(({ device }) => device),
  ]);
  return [...new Set([...inOrder, ...told])].filter((device) => told.has(device));
}

function DeviceSettings({
  device,
  setup,
}: {
  readonly device: string;
  readonly setup: Setup;
}): VNode {
  const advice = setup.advice.filter((one) => one.device === device);
  const advised = new Set(advice.map(({ path }) => JSON.stringify(path)));
  const values = setup.room.settings
    .filter((one) => one.device === device)
    .flatMap((one) => one.values)
    .filter(({ path }) => !advised.has(JSON.stringify(path)));
  return (
    <tbody class="device" {...placeOf(['settings', device])}>
      <tr class="group">
        <th scope="rowgroup" colspan={5}>
          <ToSource path={['settings', device]}>{device}</ToSource>
        </th>
      </tr>
      {advice.map((one, index) => (
        <AdviceRow key={JSON.stringify(one.path)} advice={one} before={advice[index - 1]} />
      ))}
      {values.map((value) => (
        <ValueRow key={JSON.stringify(value.path)} value={value} />
      ))}
    </tbody>
  );
}

const STATES: ReadonlyMap<boolean | null, { readonly kind: MarkKind; readonly word: string }> =
  new Map([
    [true, { kind: 'agrees', word: 'agrees' }],
    [false, { kind: 'differs', word: 'differs' }],
    [null, { kind: 'open', word: 'not in the file' }],
  ]);

interface AdviceRowProps {
  readonly advice: SettingAdvice;
  /** The row above it: what is the same is not said twice. */
  readonly before: SettingAdvice | undefined;
}

function AdviceRow({ advice, before }: AdviceRowProps): VNode {
  const { control, port, set, path, told, dialIn, exact, agrees, residual, reason, source } =
    advice;
  // Records are choices, not roundings of an exact value.
  const isSame = Number.parseFloat(exact) === Number.parseFloat(dialIn);
  const isExactTold = exact !== dialIn && !isSame && !exact.startsWith('{');
  const state = STATES.get(agrees) ?? { kind: 'open', word: '' };
  return (
    <tr class={`advice advice-${state.kind}`} {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>{settingName(control, port, set)}</ToSource>
      </th>
      <td class="dial-in">
        <b class="dial">{plainValue(dialIn)}</b>
        {isExactTold ? <span class="note">{`exactly ${typeset(exact)}`}</span> : null}
        {residual === null ? null : <span class="note">{`leaves ${typeset(residual)}`}</span>}
      </td>
      <td class="state">
        <Mark kind={state.kind} /> {state.word}
        {advice.standing === 'start' ? <span class="note">starting value</span> : null}
        <DialIn advice={advice} />
      </td>
      <td>{told === null ? MISSING : <code>{told}</code>}</td>
      <td class="why">
        {before?.reason === reason ? 'as above' : typeset(plainValue(reason))}
        {source === '' || before?.source === source ? null : <span class="note">{source}</span>}
      </td>
    </tr>
  );
}

/** In the pane the file can be made to agree from here. */
function DialIn({ advice }: { readonly advice: SettingAdvice }): VNode | null {
  const { apply } = useContext(LiveContext);
  const { fix, agrees } = advice;
  if (apply === null || fix === null || agrees === true) return null;
  return (
    <button type="button" class="apply" onClick={() => apply(fix)} aria-label={fix.title}>
      write to the file
    </button>
  );
}

function ValueRow({ value }: { readonly value: SettingValue }): VNode {
  const { control, port, set, path } = value;
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>{settingName(control, port, set)}</ToSource>
      </th>
      <td>
        <Told value={value} />
      </td>
      <td class="state">as decided</td>
      <td>
        {value.kind === 'eq' ? counted(value.bands.length, 'band') : <code>{value.told}</code>}
      </td>
      <td class="why" />
    </tr>
  );
}

/** As written, but for records, which are read better as their figures. */
function Told({ value }: { readonly value: SettingValue }): VNode {
  if (value.kind === 'eq') return <EqBands value={value} />;
  if (value.kind === 'filter' && value.frequency_hz !== null && value.slope_db_oct !== null) {
    return <b class="dial">{`${value.frequency_hz} Hz, ${value.slope_db_oct} dB/oct`}</b>;
  }
  return <b class="dial">{value.told}</b>;
}

function EqBands({ value }: { readonly value: Extract<SettingValue, { kind: 'eq' }> }): VNode {
  return (
    <ul class="plain">
      {value.bands.map(({ name, frequency_hz, gain_db, q }) => (
        <li key={name}>
          <b class="dial">
            {[
              frequency_hz === null ? MISSING : `${frequency_hz} Hz`,
              gain_db === null ? MISSING : `${gain_db} dB`,
              q === null ? MISSING : `q ${q}`,
            ].join(', ')}
          </b>
        </li>
      ))}
    </ul>
  );
}
