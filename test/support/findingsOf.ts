// What one rule finds in a hand-made room: the parts that the rules read are worked out, the signal's are left empty.

import type { Finding } from '../../core/finding.ts';
import { airPart } from '../../core/parts/air.ts';
import { anglesPart } from '../../core/parts/angles.ts';
import { noisePart } from '../../core/parts/backgroundNoise.ts';
import { boundariesPart } from '../../core/parts/boundaries.ts';
import { layoutPart } from '../../core/parts/layout.ts';
import { placementPart } from '../../core/parts/placement.ts';
import { createRecordPart } from '../../core/parts/record.ts';
import { referenceSeat } from '../../core/parts/referenceSeat.ts';
import { spacePart } from '../../core/parts/space.ts';
import type { Rule } from '../../core/rules/rule.ts';
import { type RunOptions, runTheseRules } from '../../core/rules/run.ts';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import type { Room } from '../../schema/model/room.ts';

/** 20 °C. */
const DEFAULT_TEMPERATURE_K = 293.15;

/** Geometry and room of a Setup; `parts` lays figures of the signal over it. */
export function geometrySetup(room: Room, parts: Partial<Setup> = {}): Setup {
  const { air } = airPart(room, DEFAULT_TEMPERATURE_K);
  const angles = anglesPart(room);
  const { layouts } = layoutPart(room, angles);
  return {
    room,
    air,
    space: spacePart(room, air).space,
    background: noisePart(room).background,
    referenceSeat: referenceSeat(room)?.id ?? null,
    seats: angles.seats.map((one) => ({ id: one.seat, arrivals: [], angles: one.angles })),
    signalPaths: [],
    crossovers: [],
    layouts,
    boundaries: boundariesPart(room, air).boundaries,
    placement: placementPart(room, layouts).placement,
    levels: {
      connections: [],
      reference: {
        stated_db: null,
        weighting: null,
        from: null,
        byChannelCount_dba: null,
        byVolume_db: null,
        channelCount: 0,
      },
      bass: [],
      lfe: null,
      exposure: null,
    },
    power: { up: [], down: [], circuits: [] },
    advice: [],
    cautions: [],
    findings: [],
    notes: [],
    ...parts,
  };
}

export interface CheckOptions extends Partial<RunOptions> {
  /** Figures of the signal, where the rule looks at them. */
  readonly parts?: Partial<Setup>;
}

/** The findings of one rule, or several, alone. */
export function findingsOf(
  rule: Rule | readonly Rule[],
  room: Room,
  { today = null, parts = {} }: CheckOptions = {},
): readonly Finding[] {
  const rules = 'code' in rule ? [rule] : rule;
  const record = createRecordPart()(room, room, today);
  const setup = geometrySetup(room, { record, ...parts });
  return runTheseRules(rules, setup, showFor(room.habits), { today });
}

/** Place and message of each, as a person would read them in a list. */
export function told(findings: readonly Finding[]): readonly string[] {
  return findings.map(({ path, message }) => `${path.join('.')}: ${message}`);
}
