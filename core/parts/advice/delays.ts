// Advice on delays: what each delay setting should hold for the reference seat, in the device's own words.

import type { DeviceSettings } from '../../../schema/model/room.ts';
import type { CrossoverFigures, SettingAdvice } from '../../setup.ts';
import { showFor } from '../../show.ts';
import type { DelayNeed } from '../../signal/alignment.ts';
import { grouped } from '../../signal/grouped.ts';
import { stageDelay_s } from '../../signal/traced.ts';
import { standingOf } from './crossovers.ts';
import { dialInFix, placeOfStage } from './draft.ts';
import { type DelayControl, type ToldDelay, tellDelay } from './tellDelay.ts';

const show = showFor({ length: 'metre', temperature: 'celsius', mass: 'kilogram' });

/** Advice on a delay, with what the rules ask beyond what the sheet shows. */
export interface DelayAdvice {
  readonly advice: SettingAdvice;
  readonly need: DelayNeed;
}

/** One piece of advice for each delay setting that something needs. */
export function delayAdvice(
  needs: readonly DelayNeed[],
  settings: readonly DeviceSettings[],
  crossovers: readonly CrossoverFigures[],
): readonly DelayAdvice[] {
  const byDevice = new Map(settings.map((of) => [of.device, of]));
  const distances = distanceGroups(needs);
  return needs.flatMap((need): readonly DelayAdvice[] => {
    const { control } = need.stage;
    if (control?.kind !== 'delay') return [];
    const of = byDevice.get(need.stage.device);
    const group = distances.get(need.key);
    const rate_hz = of?.sampleRate_hz ?? null;
    const tell = (more_s: number) =>
      tellDelay(
        group ? need.fixed_s - group.zero_s - more_s : need.needed_s + more_s,
        control,
        rate_hz,
      );
    const told = tell(0);
    if (told === null) return [];
    const shift_s = phaseShift_s(need, needs, crossovers);
    const byPhase = shift_s === 0 ? null : tell(shift_s);
    return [{ need, advice: adviceFor(need, { told, byPhase }, control, group, of, crossovers) }];
  });
}

function adviceFor(
  need: DelayNeed,
  { told, byPhase }: { readonly told: ToldDelay; readonly byPhase: ToldDelay | null },
  control: DelayControl,
  group: DistanceGroup | undefined,
  settings: DeviceSettings | undefined,
  crossovers: readonly CrossoverFigures[],
): SettingAdvice {
  const crossover = crossoverOf(need, crossovers);
  // A longer distance told is a shorter delay: what rounding leaves has the other sign.
  const residual_s = (group ? -1 : 1) * (told.dialled_s - told.exact_s);
  const place = placeOfStage(need.stage);
  const agreesByPhase = byPhase !== null && agreesWith(need, byPhase, control, settings) === true;
  const agrees = agreesByPhase || agreesWith(need, told, control, settings);
  const isOfSub = crossover?.subs.some((id) => need.targets.includes(id)) === true;
  const standing = crossover && isOfSub ? standingOf(crossover) : 'computed';
  const at_hz = crossover && frequencyOf(crossover);
  return {
    ...place,
    exact: told.exact,
    dialIn: told.dialIn,
    agrees,
    residual: residualText(residual_s, at_hz ?? null),
    residual_s,
    residualPhase_rad:
      at_hz === undefined || at_hz === null ? null : 2 * Math.PI * at_hz * residual_s,
    delay: {
      needed_s: told.exact_s,
      told_s: toldTime_s(need, control, settings),
      beyond_s: told.beyond_s,
      targets: need.targets,
      ...(byPhase === null || byPhase.dialIn === told.dialIn || 0 < byPhase.beyond_s
        ? {}
        : { byPhase: byPhase.dialIn }),
    },
    reason: reasonFor(need, told, group, byPhase),
    source: 'geometry: distance by the speed of sound, latency and delay along the wiring',
    standing,
    fix: dialInFix(place, told.dialIn, agrees, standing === 'computed'),
  };
}

/** Whether the file holds what can be dialled in, or something just as near. */
function agreesWith(
  need: DelayNeed,
  { dialled_s, exact_s, steps }: ToldDelay,
  control: DelayControl,
  settings: DeviceSettings | undefined,
): boolean | null {
  const { value } = need.stage;
  if (value === null || value.kind === 'unknown') return null;
  const has_s = toldTime_s(need, control, settings);
  if (has_s === null) return false;
  const hair_s = 1e-9;
  const isSame = Math.abs(has_s - dialled_s) < Math.max(hair_s, (steps.step ?? 0) * 1e-3);
  return isSame || Math.abs(has_s - exact_s) <= Math.abs(dialled_s - exact_s) + hair_s;
}

/** What the file tells the device, as a time in the sense of `tellDelay`; null where it tells nothing that can be read. */
function toldTime_s(
  { stage }: DelayNeed,
  { toldAs }: DelayControl,
  settings: DeviceSettings | undefined,
): number | null {
  const { value } = stage;
  if (value === null) return null;
  if (value.kind === 'length' && 'speedOfSound_m_s' in toldAs) {
    return value.length_m / toldAs.speedOfSound_m_s;
  }
  return toldAs.as === 'own_distance' ? null : stageDelay_s(stage, settings);
}

function reasonFor(
  { needed_s, latest, targets, sets, spread_s }: DelayNeed,
  { beyond_s, dialIn }: ToldDelay,
  group: DistanceGroup | undefined,
  byPhase: ToldDelay | null,
): string {
  const parts: string[] = [];
  if (group) parts.push('the distance as the device counts it, latency beyond it included');
  else if (needed_s < 1e-6) parts.push('the latest arrival: all others wait for it');
  else parts.push(`waits for ${latest}, which arrives last`);
  if (1 < targets.length && 0 < spread_s) {
    parts.push(`one delay for ${targets.join(', ')}: a compromise, ${show.time(spread_s)} apart`);
  }
  if (1 < sets.length)
    parts.push(`shared by ${sets.join(', ')}: the greatest that one of them needs`);
  if (0 < beyond_s) {
    parts.push(
      `${show.time(beyond_s)} beyond what the device can hold: ${latest} would have to come sooner`,
    );
  }
  if (byPhase !== null && byPhase.dialIn !== dialIn) {
    parts.push(`${byPhase.dialIn} by phase at the crossover, as far as data sheets tell: measure`);
  }
  return parts.join('; ');
}

/** Less than this is no other answer, at any crossover. */
const LEAST_SHIFT_S = 0.00005;

/**
 * What aligning by phase adds to this delay: to the subwoofer's where it can take it, else to that of the mains.
 *
 * @source the smallest delay that keeps the phases together over the overlap, for the filter as dialled in
 */
function phaseShift_s(
  need: DelayNeed,
  needs: readonly DelayNeed[],
  crossovers: readonly CrossoverFigures[],
): number {
  const crossover = crossoverOf(need, crossovers);
  const more_s = crossover?.aligned?.subDelay_s ?? 0;
  if (crossover === undefined || Math.abs(more_s) < LEAST_SHIFT_S) return 0;
  const ofSub = needs.find(
    ({ targets, sets }) =>
      sets.includes(crossover.set) && targets.some((id) => crossover.subs.includes(id)),
  );
  const subShift_s = ofSub === undefined ? 0 : Math.max(more_s, -ofSub.needed_s);
  const isSub = need.targets.some((id) => crossover.subs.includes(id));
  const shift_s = isSub ? subShift_s : subShift_s - more_s;
  return Math.abs(shift_s) < LEAST_SHIFT_S ? 0 : shift_s;
}

function residualText(residual_s: number, at_hz: number | null): string | null {
  if (Math.abs(residual_s) < 5e-7) return null;
  const sign = residual_s < 0 ? '-' : '+';
  const time = `${sign}${(Math.abs(residual_s) * 1000).toFixed(3)} ms`;
  if (at_hz === null) return time;
  const degrees = Math.abs(residual_s) * at_hz * 360;
  return `${time}, ${degrees.toFixed(1)}° at ${show.frequency(at_hz)}`;
}

function crossoverOf(
  { targets, sets }: DelayNeed,
  crossovers: readonly CrossoverFigures[],
): CrossoverFigures | undefined {
  return crossovers.find(
    ({ mains, subs, set }) =>
      sets.includes(set) && targets.some((id) => mains.includes(id) || subs.includes(id)),
  );
}

/** The crossover's frequency as it stands, else as it is suggested. */
export function frequencyOf({ current, ranked, practice }: CrossoverFigures): number | null {
  return (current ?? ranked[0] ?? practice)?.filter.frequency_hz ?? null;
}

/** The drivers whose distances one device is told; it makes up for the differences between them alone. */
interface DistanceGroup {
  /** What every distance leaves out: the time that all have in common beyond their flight. */
  readonly zero_s: number;
}

function distanceGroups(needs: readonly DelayNeed[]): ReadonlyMap<string, DistanceGroup> {
  const told = needs.filter(
    ({ stage }) => stage.control?.kind === 'delay' && stage.control.toldAs.as === 'own_distance',
  );
  const groups = new Map<string, DistanceGroup>();
  for (const members of grouped(told, ({ stage }) => stage.device).values()) {
    const zero_s = Math.min(...members.map(({ beyondFlight_s }) => beyondFlight_s));
    for (const { key } of members) groups.set(key, { zero_s });
  }
  return groups;
}
