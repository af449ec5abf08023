// Advice on delays: what each delay setting should hold for the reference seat, in the device's own words.

import type { DeviceSettings } from '../../../schema/model/room.ts';
import type { CrossoverFigures, SettingAdvice } from '../../setup.ts';
import { showFor } from '../../show.ts';
import type { DelayNeed } from '../../signal/alignment.ts';
import { grouped } from '../../signal/grouped.ts';
import { stageDelay_s } from '../../signal/traced.ts';
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
    const told = tellDelay(group ? need.fixed_s - group.zero_s : need.needed_s, control, rate_hz);
    if (told === null) return [];
    return [{ need, advice: adviceFor(need, told, control, group, of, crossovers) }];
  });
}

function adviceFor(
  need: DelayNeed,
  told: ToldDelay,
  control: DelayControl,
  group: DistanceGroup | undefined,
  settings: DeviceSettings | undefined,
  crossovers: readonly CrossoverFigures[],
): SettingAdvice {
  const crossover = crossoverOf(need, crossovers);
  // A longer distance told is a shorter delay: what rounding leaves has the other sign.
  const residual_s = (group ? -1 : 1) * (told.dialled_s - told.exact_s);
  const place = placeOfStage(need.stage);
  const agrees = agreesWith(need, told, control, settings);
  const standing = crossover?.subs.some((id) => need.targets.includes(id)) ? 'start' : 'computed';
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
    },
    reason: reasonFor(need, told, group, standing === 'start' ? crossover : undefined),
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
  { beyond_s }: ToldDelay,
  group: DistanceGroup | undefined,
  crossover: CrossoverFigures | undefined,
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
  const byPhase_s = crossover?.ranked[0]?.subDelay_s ?? 0;
  if (1e-4 < Math.abs(byPhase_s) && crossover) {
    const more = byPhase_s < 0 ? 'less' : 'more';
    parts.push(
      `by phase ${show.time(Math.abs(byPhase_s))} ${more} may sum better at ${show.frequency(frequencyOf(crossover) ?? 0)}: measure`,
    );
  }
  return parts.join('; ');
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
