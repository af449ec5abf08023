// Explanations in words: the causes of each with what it takes off the misfit, and what nobody can tell apart.

import type { Fix } from '../finding.ts';
import type { Setup } from '../setup.ts';
import { showFor } from '../show.ts';
import { evidenceOf } from './causeEvidence.ts';
import { type Evidence, type Explanation, misfitWith, variantOf } from './causeFit.ts';
import { keysOf, type Searched, TOLD_APART, without } from './causeSearch.ts';
import { tellingTake } from './tellingTake.ts';
import type { Variant } from './variant.ts';
import type { LikelyCause } from './verification.ts';

const MOST_LISTED = 3;

/** Of each explanation its causes, what explains most first. @param rivals which nobody can tell apart */
export function causesTold(
  setup: Setup,
  evidence: Evidence,
  searched: Searched,
  listed: readonly Explanation[],
  rivals: readonly Explanation[],
): readonly LikelyCause[] {
  const common = commonKeys(rivals);
  return listed
    .slice(0, MOST_LISTED)
    .flatMap((one, i) => explanationTold(setup, evidence, searched, one, i + 1, common));
}

function explanationTold(
  setup: Setup,
  evidence: Evidence,
  { stated, weighing }: Searched,
  one: Explanation,
  explanation: number,
  common: ReadonlySet<string>,
): readonly LikelyCause[] {
  const { told } = weighing;
  const show = showFor(setup.room.habits);
  const images = one.causes.map((_, i) => imagesOf(evidence, weighing, one, i));
  const fixes = one.causes.map(({ hypothesis, values }, i) =>
    images[i]?.length === 0 ? hypothesis.fix(values, show) : null,
  );
  const allFix = together(fixes);
  const count = one.causes.length;
  return one.causes
    .map((cause, i): LikelyCause => {
      const { hypothesis, values } = cause;
      const before = without(evidence, stated, one, i);
      const names = one.causes.filter((_, j) => j !== i).map((other) => other.hypothesis.name);
      const fix = fixes[i] ?? null;
      return {
        kind: hypothesis.kind,
        path: hypothesis.path,
        message: hypothesis.message(values, show),
        before: told(before),
        after: told(one),
        evidence: [
          ...(images[i] ?? []).map((image) => {
            const take = tellingTake(
              setup,
              evidence,
              one.variant,
              image.variant,
              hypothesis.sources,
            );
            return `These takes fit as well where ${hypothesis.message(image.values, show)}; ${take}`;
          }),
          ...evidenceOf(evidence, before.variant, one.variant, cause, show),
        ],
        fix:
          fix !== null && 1 < count
            ? { ...fix, title: `${fix.title} (one of ${count} causes)` }
            : fix,
        explanation,
        ...(1 < count ? { togetherWith: names, allFix } : {}),
        ...(common.has(hypothesis.key) ? { isCertain: true } : {}),
      };
    })
    .toSorted((a, b) => b.before - a.before);
}

/** Other values of one of its causes that these takes cannot tell from its own. */
function imagesOf(
  evidence: Evidence,
  { told }: Searched['weighing'],
  one: Explanation,
  index: number,
): readonly Image[] {
  const { hypothesis, values = [] } = one.causes[index] ?? {};
  const images = hypothesis?.images?.(values) ?? [];
  return images.flatMap((image) => {
    const all = one.causes.map((cause, i) => (i === index ? image : cause.values));
    const variant = variantOf(one.causes, all);
    const isSame = told({ misfit: misfitWith(evidence, variant) }) < told(one) + TOLD_APART;
    return isSame && isApart(image, values) ? [{ values: image, variant }] : [];
  });
}

interface Image {
  readonly values: readonly number[];
  readonly variant: Variant;
}

/** Farther than a search tells places apart. */
function isApart(one: readonly number[], other: readonly number[]): boolean {
  return 0.3 < Math.hypot(...one.map((value, i) => value - (other[i] ?? 0)));
}

/** Several edits as one; null where fewer than two are edits of the file. */
function together(fixes: readonly (Fix | null)[]): Fix | null {
  const known = fixes.filter((fix) => fix !== null);
  if (known.length < 2) return null;
  return {
    title: known
      .map(({ title }, i) => (i === 0 ? title : title.charAt(0).toLowerCase() + title.slice(1)))
      .join(', and '),
    edits: known.flatMap(({ edits }) => edits),
    safe: false,
  };
}

function commonKeys(rivals: readonly Explanation[]): ReadonlySet<string> {
  const [first] = rivals;
  const keys = first === undefined ? [] : keysOf(first);
  return new Set(keys.filter((key) => rivals.every((one) => keysOf(one).includes(key))));
}

/** "Undecided between … and …", what is common to all said before, and the take that would tell. */
export function rivalsTold(
  setup: Setup,
  evidence: Evidence,
  rivals: readonly Explanation[],
): string {
  const common = commonKeys(rivals);
  const sure = rivals[0]?.causes.filter(({ hypothesis }) => common.has(hypothesis.key)) ?? [];
  const names = rivals.slice(0, MOST_LISTED).map(({ causes }) =>
    causes
      .filter(({ hypothesis }) => !common.has(hypothesis.key))
      .map(({ hypothesis }) => hypothesis.name)
      .join(' together with '),
  );
  const besides =
    sure.length === 0
      ? ''
      : `, besides ${sure.map(({ hypothesis }) => hypothesis.name).join(' and ')}`;
  const said = `Undecided between ${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}${besides}`;
  const [one, other] = rivals;
  if (one === undefined || other === undefined) return said;
  const take = tellingTake(setup, evidence, one.variant, other.variant, heardBy(one, other));
  return `${said}: ${take}`;
}

/** Loudspeakers that one of both touches and the other does not touch alike. */
function heardBy(one: Explanation, other: Explanation): readonly string[] | null {
  const common = commonKeys([one, other]);
  const lists = [...one.causes, ...other.causes]
    .filter(({ hypothesis }) => !common.has(hypothesis.key))
    .map(({ hypothesis }) => hypothesis.sources);
  return lists.some((list) => list === null) ? null : lists.flatMap((list) => list ?? []);
}

/** Whether one says the other and more, or less. */
export function isPartOf(one: Explanation, other: Explanation): boolean {
  const [keys, others] = [keysOf(one), keysOf(other)];
  return (
    keys.length !== others.length &&
    (keys.every((key) => others.includes(key)) || others.every((key) => keys.includes(key)))
  );
}
