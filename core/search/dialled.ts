// What a placement asks of the devices: the level, delay and polarity of each moved subwoofer, and delays of others that have to
// wait now; worked out as for any room, on the room with its subwoofers moved, so that no other part of it says otherwise.

import type { Point } from '../../schema/model/quantities.ts';
import type { Room } from '../../schema/model/room.ts';
import type { SemanticEdit } from '../finding.ts';
import { levelText } from '../parts/advice/settingText.ts';
import { tellDelay } from '../parts/advice/tellDelay.ts';
import type { SettingAdvice, Setup } from '../setup.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { nearestStep } from '../signal/steps.ts';
import type { WorkOut } from '../workOut.ts';
import type { PlacementCandidate, SubSetting } from './searchTask.ts';
import type { SubControls } from './subControls.ts';

/** A setting that belongs to a placement, as the file would hold it. */
export interface DialledSetting {
  readonly path: readonly string[];
  readonly value: string;
}

interface Moved {
  readonly setup: Pick<Setup, 'room' | 'air' | 'advice'>;
  /** In the order of a candidate's positions. */
  readonly subs: readonly { readonly id: string; readonly isCopy: boolean }[];
  readonly controls: readonly SubControls[];
  readonly workOut: WorkOut;
}

/**
 * @param candidate its delays count for nothing: arrival decides them
 * @returns delays as the subs' own devices hold them, and all settings that differ from a device's rest or from the file
 */
export function dialled<Candidate extends PlacementCandidate>(
  { setup, subs, controls, workOut }: Moved,
  candidate: Candidate,
): Candidate & { readonly dialIn: readonly DialledSetting[] } {
  const places = new Map(
    subs.flatMap(({ id, isCopy }, i) => {
      const at = candidate.positions[i];
      return isCopy || at === undefined ? [] : [[id, at] as const];
    }),
  );
  const { advice } = workOut(movedRoom(setup.room, places), {
    today: null,
    defaultTemperature_k: setup.air.temperature_k,
  });
  const settings = candidate.settings.map((setting, i) => {
    const own = advice.find((one) => one.delay?.targets.includes(subs[i]?.id ?? ''));
    const steps = controls[i]?.ranges.delay_s ?? null;
    const needed_s = Math.max(0, own?.delay?.needed_s ?? 0);
    return { ...setting, delay_s: steps === null ? 0 : nearestStep(needed_s, steps) };
  });
  const own = settings.flatMap((setting, i) => {
    const control = controls[i];
    return control === undefined || subs[i]?.isCopy ? [] : ownSettings(setting, control);
  });
  const delays = advice.flatMap((one): readonly DialledSetting[] => {
    const { delay, path, dialIn } = one;
    return delay === undefined || !isAffected(one, setup.advice, subs)
      ? []
      : [{ path, value: dialIn }];
  });
  return { ...candidate, settings, dialIn: [...own, ...delays] };
}

/** With settings searched freely: the subs' own, and nothing else. */
export function freelyDialled<Candidate extends PlacementCandidate>(
  { setup: { room }, subs, controls }: Omit<Moved, 'workOut'>,
  candidate: Candidate,
): Candidate & { readonly dialIn: readonly DialledSetting[] } {
  const dialIn = candidate.settings.flatMap((setting, i): readonly DialledSetting[] => {
    const control = controls[i];
    if (control === undefined || subs[i]?.isCopy) return [];
    const { delay, ranges } = control;
    const of = room.settings.find(({ device }) => device === delay?.device);
    const told =
      delay?.control?.kind === 'delay' && ranges.delay_s !== null
        ? tellDelay(setting.delay_s, delay.control, of?.sampleRate_hz ?? null)
        : null;
    return [
      ...ownSettings(setting, control),
      ...(delay && told ? [{ path: pathOf(delay), value: told.dialIn }] : []),
    ];
  });
  return { ...candidate, dialIn };
}

/** Edits of what the file has otherwise; where it has nothing and the device's rest is meant, none. */
export function dialInEdits(
  { settings }: Pick<Room, 'settings'>,
  dialIn: readonly DialledSetting[],
): readonly SemanticEdit[] {
  const told = new Map(
    settings
      .flatMap(({ values }) => values)
      .map((value) => [value.path.join('\n'), value.told] as const),
  );
  return dialIn.flatMap(({ path, value }): readonly SemanticEdit[] => {
    const has = told.get(path.join('\n'));
    const isSame = has === undefined ? isRest(value) : isSameText(has, value);
    return isSame ? [] : [{ do: 'set', path, value }];
  });
}

function movedRoom(room: Room, places: ReadonlyMap<string, Point>): Room {
  const subwoofers = room.subwoofers.map((sub) => ({ ...sub, at: places.get(sub.id) ?? sub.at }));
  return { ...room, subwoofers };
}

function ownSettings(
  { level_db, inverted }: SubSetting,
  { ranges, level, polarity }: SubControls,
): readonly DialledSetting[] {
  return [
    ...(level && ranges.level_db
      ? [{ path: pathOf(level), value: levelText(level_db, ranges.level_db.step) }]
      : []),
    ...(polarity && ranges.canInvert
      ? [{ path: pathOf(polarity), value: inverted ? 'inverted' : 'normal' }]
      : []),
  ];
}

function pathOf({ settingPath, device, control, stage }: GovernedStage): readonly string[] {
  return settingPath ?? ['settings', device, control?.name ?? stage];
}

/** The subs' own delays; of the others those that agreed before anything was moved. */
function isAffected(
  { delay, path }: SettingAdvice,
  before: readonly SettingAdvice[],
  subs: Moved['subs'],
): boolean {
  if (subs.some(({ id, isCopy }) => !isCopy && delay?.targets.includes(id))) return true;
  const was = before.find((one) => one.path.join('\n') === path.join('\n'));
  return was !== undefined && (was.agrees === true || (was.told === null && isRest(was.dialIn)));
}

function isRest(value: string): boolean {
  return value === 'normal' || Number.parseFloat(value) === 0;
}

/** `0.50 ms` and `0.5 ms` are one setting. */
function isSameText(one: string, other: string): boolean {
  const unit = (text: string) => text.replace(/^[-+\d.\s]+/, '');
  const [a, b] = [Number.parseFloat(one), Number.parseFloat(other)];
  return one === other || (unit(one) === unit(other) && Math.abs(a - b) < 1e-9);
}
