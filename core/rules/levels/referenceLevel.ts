// Rule levels/reference-level: the room's reference level is the one that its policy names.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly room: string;
  readonly policy: string;
}

/** As channels are set: common practice, no source. */
const LIMIT_DB = 0.5;

export const levelsReferenceLevel: Rule = defineRule<Fact>({
  code: 'levels/reference-level',
  severity: 'warning',
  title: "Reference level is not the policy's",
  reason: 'Rooms at different reference levels make mixes that do not match one another.',
  advice: 'Set the room to the level of the policy, or give the room a policy of its own.',
  source: 'the policy that the room names',

  *find({ room }) {
    const stated = room.targets.referenceLevel;
    const asked = room.policy.referenceLevel;
    if (stated === null || asked === null) return;
    const text = ({ level_db, weighting }: typeof stated) =>
      `${Number(level_db.toFixed(1))} dB${weighting === 'Z' ? '' : weighting}`;
    const isSame =
      stated.weighting === asked.weighting &&
      Math.abs(stated.level_db - asked.level_db) <= LIMIT_DB;
    if (isSame) return;
    const path = ['targets', 'reference_level'];
    yield {
      path,
      fact: { room: text(stated), policy: text(asked) },
      measured: { value: stated.level_db, unit: `dB${stated.weighting}` },
      limit: { value: asked.level_db, unit: `dB${asked.weighting}` },
      fixes: [
        {
          title: `Change to ${text(asked)}`,
          edits: [{ do: 'set', path, value: text(asked) }],
          safe: false,
        },
      ],
    };
  },

  message: ({ room, policy }) => `${room}, where the policy asks for ${policy}`,
});
