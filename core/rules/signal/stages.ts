// Stages of signal paths as the rules ask for them: what is dialled in there, and whether a filter is in use.

import { isAtOrBelow, type Path } from '../../../schema/model/path.ts';
import type { Room, SettingValue } from '../../../schema/model/room.ts';
import { isLfeName } from '../../layouts/channelNames.ts';
import type { SignalPath, StageOnPath } from '../../setup.ts';

/** The setting at a path; undefined where the file has none. */
export function settingAt(room: Room, path: Path | null): SettingValue | undefined {
  if (path === null) return undefined;
  return room.settings
    .find(({ device }) => device === path[1])
    ?.values.find((value) => isAtOrBelow(value.path, path) && value.path.length === path.length);
}

/** `on` with its frequency, `off` where it stands at bypass, `unset` where nothing readable is dialled in. */
export type FilterState =
  | { readonly state: 'on'; readonly frequency_hz: number }
  | { readonly state: 'off' | 'unset' };

export function filterState(room: Room, { settingPath }: StageOnPath): FilterState {
  const value = settingAt(room, settingPath);
  if (value?.kind === 'filter' && value.frequency_hz !== null) {
    return { state: 'on', frequency_hz: value.frequency_hz };
  }
  const isOff = value?.kind === 'bypass' || (value?.kind === 'choice' && value.choice === 'bypass');
  return { state: isOff ? 'off' : 'unset' };
}

/** Whether a path carries low-frequency effects: by its channel, or by a stage that it passes. */
export function isLfePath({ channel, stages }: SignalPath): boolean {
  return (
    (channel !== null && isLfeName(channel)) ||
    stages.some(({ kind }) => kind === 'lfe_gain' || kind === 'lfe_low_pass')
  );
}

/** Where the connection of an index stands in the file. */
export function wirePath(index: number): Path {
  return ['wiring', String(index)];
}

/** `sub.in_left`, as wiring writes it. */
export function portText({
  device,
  port,
}: {
  readonly device: string;
  readonly port: string;
}): string {
  return `${device}.${port}`;
}

/** Whether two paths carry the same output of the same source, or the same channel by another one, in the same set. */
export function sharesSource(a: SignalPath, b: SignalPath): boolean {
  const isSameOutput = a.source.device === b.source.device && a.source.port === b.source.port;
  const isSameChannel = a.channel !== null && a.channel === b.channel;
  return a.set === b.set && (isSameOutput || isSameChannel);
}
