// Rule signal/cable-long: a cable is no longer than its kind bears.

import type { CableKind } from '../../../schema/model/room.ts';
import { defineRule, type Rule } from '../rule.ts';
import { cablePath, cableText } from './cables.ts';

interface Fact {
  readonly cable: string;
  readonly kind: CableKind;
  readonly length_m: number;
  readonly limit_m: number;
}

/**
 * @source network: 100 m for a channel of copper pairs, ISO/IEC 11801 (from memory); digital: 100 m over a balanced pair without
 * equalisation, AES3 (from memory); unbalanced: common practice, no source
 */
const LONGEST_M: Partial<Record<CableKind, number>> = {
  network: 100,
  digital: 100,
  unbalanced: 10,
};

export const cableLong: Rule = defineRule<Fact>({
  code: 'signal/cable-long',
  severity: 'information',
  title: 'A cable longer than its kind bears',
  reason:
    'An unbalanced line picks up hum over its length, and currents between two mains sockets flow in its shield; digital signals and networks lose their edges.',
  advice: 'Take a balanced line, an optical one, or a repeater on the way.',
  source:
    'network 100 m: ISO/IEC 11801 (from memory); digital 100 m: AES3, balanced (from memory); unbalanced 10 m: common practice, no source',

  *find({ room }) {
    for (const cable of room.cables ?? []) {
      const { kind, length_m } = cable;
      const limit_m = kind === null ? undefined : LONGEST_M[kind];
      if (kind === null || length_m === null || limit_m === undefined || length_m <= limit_m)
        continue;
      yield {
        path: cablePath(cable, 'length'),
        fact: { cable: cableText(cable), kind, length_m, limit_m },
        measured: { value: length_m, unit: 'm' },
        limit: { value: limit_m, unit: 'm' },
      };
    }
  },

  message: ({ cable, kind, length_m, limit_m }, show) =>
    `${cable} is ${show.length(length_m)} long, ${kind}: up to ${show.length(limit_m)} is usual`,
});
