// Which setting governs a stage: one under the set, under a port at either end of the leg, or for the whole device.

import { type Control, STAGES, type StageKind } from '../../schema/model/gear.ts';
import type { Path } from '../../schema/model/path.ts';
import type { DeviceSettings, SettingValue } from '../../schema/model/room.ts';
import type { StageOnPath } from '../setup.ts';
import { DRIVER, type Leg } from './leg.ts';
import type { SignalNode } from './node.ts';

/** A stage together with the control that sets it and what is dialled in there. */
export interface GovernedStage extends StageOnPath {
  readonly control: Control | null;
  readonly value: SettingValue | null;
  /** Under which port or set the setting stands or would stand. */
  readonly port: string | null;
  readonly set: string | null;
}

const KINDS: ReadonlySet<string> = new Set(STAGES);

/**
 * The stages of a leg, each with what governs it.
 *
 * @param settings of the leg's device; undefined where the file has none
 * @param set the set of monitors that is switched on; null where the room has no sets
 */
export function governedStages(
  leg: Leg,
  node: SignalNode | undefined,
  settings: DeviceSettings | undefined,
  set: string | null,
): readonly GovernedStage[] {
  return leg.stages.map((stage) => {
    const control = node?.gear?.controls.find(({ stages }) => stages.includes(stage)) ?? null;
    const place = control ? placeOf(control, leg, node, settings, set) : NOWHERE;
    return {
      device: leg.node,
      stage,
      kind: isStageKind(stage) ? stage : 'switch',
      fromPort: leg.from,
      toPort: leg.to,
      settingPath: control
        ? (place.value?.path ?? settingPath(leg.node, control.name, place.port, place.set))
        : null,
      control,
      ...place,
    };
  });
}

/** Where a setting stands in the file. */
export function settingPath(
  device: string,
  control: string,
  port: string | null,
  set: string | null,
): Path {
  if (set !== null) return ['settings', device, 'sets', set, control];
  if (port !== null) return ['settings', device, 'ports', port, control];
  return ['settings', device, control];
}

interface Place {
  readonly value: SettingValue | null;
  readonly port: string | null;
  readonly set: string | null;
}

const NOWHERE: Place = { value: null, port: null, set: null };

function placeOf(
  control: Control,
  leg: Leg,
  node: SignalNode | undefined,
  settings: DeviceSettings | undefined,
  set: string | null,
): Place {
  const values = settings?.values.filter((value) => value.control === control.name) ?? [];
  const value =
    values.find((candidate) => set !== null && candidate.set === set) ??
    values.find((candidate) => candidate.port === leg.to) ??
    values.find((candidate) => candidate.port === leg.from) ??
    values.find((candidate) => candidate.port === null && candidate.set === null);
  if (value) return { value, port: value.port, set: value.set };
  if (control.eachPort) return { ...NOWHERE, port: ownPort(leg) };
  const isSwitched =
    node?.gear?.kind === 'controller' && values.some((candidate) => candidate.set !== null);
  return { ...NOWHERE, set: isSwitched ? set : null };
}

/** The port that bears a leg's own setting: its output or driver, or its input where it ends in a bus. */
function ownPort({ from, to, end }: Leg): string | null {
  if (end === 'bus') return from;
  return end === 'driver' ? DRIVER : to;
}

function isStageKind(stage: string): stage is StageKind {
  return KINDS.has(stage);
}
