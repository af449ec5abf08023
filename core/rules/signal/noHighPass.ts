// Rule signal/no-high-pass: a main whose bass a subwoofer takes over no longer plays that bass itself.

import { defineRule, type Rule } from '../rule.ts';
import { filterState, isLfePath, sharesSource } from './stages.ts';

interface Fact {
  readonly id: string;
  readonly sub: string;
  readonly isBypassed: boolean;
}

export const noHighPass: Rule = defineRule<Fact>({
  code: 'signal/no-high-pass',
  severity: 'warning',
  title: 'Main without a high-pass',
  reason:
    'Main and subwoofer then both play the bass: too much of it, with phases that nobody chose.',
  advice: 'Lead the main through the high-pass of the subwoofer or processor, or switch that on.',
  source: 'common practice, no source',

  *find({ room, signalPaths }) {
    const told = new Set<string>();
    for (const { id } of room.speakers) {
      for (const path of signalPaths.filter(({ target }) => target === id)) {
        if (isLfePath(path) || told.has(id)) continue;
        const sub = signalPaths.find(
          (other) =>
            room.subwoofers.some((subwoofer) => subwoofer.id === other.target) &&
            sharesSource(other, path) &&
            !isLfePath(other),
        );
        if (sub === undefined) continue;
        const states = path.stages
          .filter(({ kind }) => kind === 'high_pass')
          .map((stage) => ({ stage, ...filterState(room, stage) }));
        if (states.some(({ state }) => state !== 'off')) continue;
        told.add(id);
        yield {
          path: states[0]?.stage.settingPath ?? ['speakers', id],
          fact: { id, sub: sub.target, isBypassed: 0 < states.length },
        };
      }
    }
  },

  message: ({ id, sub, isBypassed }) =>
    isBypassed
      ? `${sub} takes the bass of ${id}, whose high-pass stands at bypass`
      : `${sub} takes the bass of ${id}, and no high-pass is on its way`,
});
