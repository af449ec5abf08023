// What the rules of the crossover share: the advice on one, the fix that dials in an outcome, the curve near it.

import type { Fix, SemanticEdit } from '../../finding.ts';
import { filterText } from '../../parts/advice/settingText.ts';
import type { CrossoverFigures, CrossoverOutcome, SettingAdvice, Setup } from '../../setup.ts';

/** The advice on the filter of a crossover; undefined where nothing can be suggested. */
export function adviceOn({ advice }: Setup, { path }: CrossoverFigures): SettingAdvice | undefined {
  const text = path.join('\n');
  return advice.find((one) => one.path.join('\n') === text);
}

/** A fix that dials in the suggested filters of all its mains and subs; none where what is dialled in is as good. */
export function suggestionFixes(setup: Setup, figures: CrossoverFigures): readonly Fix[] {
  const best = figures.ranked[0];
  if (best === undefined || adviceOn(setup, figures)?.agrees === true) return [];
  const own = filterPaths(setup, figures);
  const edits: readonly SemanticEdit[] = setup.advice.flatMap(({ path, fix }) =>
    own.has(path.join('\n')) ? (fix?.edits ?? []) : [],
  );
  if (edits.length === 0) return [];
  return [{ title: `Use ${outcomeText(best)}`, edits, safe: false }];
}

/**
 * A fix that aligns by phase what is dialled in: delays, and the subs' polarity where it is the other one. A start, to be
 * measured; none where nothing would change.
 */
export function phaseFixes(
  { advice, signalPaths }: Setup,
  { mains, subs, aligned, current, set }: CrossoverFigures,
): readonly Fix[] {
  if (aligned === undefined || current === null) return [];
  const drivers = [...mains, ...subs];
  const delays = advice.flatMap(({ delay, path, told }): readonly SemanticEdit[] => {
    const isOwn = delay?.targets.some((id) => drivers.includes(id)) ?? false;
    const value = delay?.byPhase;
    return isOwn && value !== undefined && value !== told ? [{ do: 'set', path, value }] : [];
  });
  const edits = [...delays, ...(aligned.polarity === current.polarity ? [] : turned())];
  if (edits.length === 0) return [];
  return [{ title: 'Align by phase at the crossover (a start: measure)', edits, safe: false }];

  function turned(): readonly SemanticEdit[] {
    const paths = signalPaths.filter(
      (path) => subs.includes(path.target) && (path.set ?? null) === set,
    );
    const switches = new Map(
      paths.flatMap(({ stages, inverted }) => {
        const at = stages.findLast(({ kind }) => kind === 'polarity')?.settingPath;
        return at ? [[at.join('\n'), { path: at, inverted }] as const] : [];
      }),
    );
    return [...switches.values()].map(({ path, inverted }) => ({
      do: 'set',
      path,
      value: inverted ? 'normal' : 'inverted',
    }));
  }
}

/** Where the filters stand that the signals of its mains and subs pass. */
function filterPaths(
  { signalPaths }: Setup,
  { mains, subs, set }: CrossoverFigures,
): ReadonlySet<string> {
  const drivers = new Set([...mains, ...subs]);
  const stages = signalPaths
    .filter((path) => drivers.has(path.target) && (path.set ?? null) === set)
    .flatMap((path) => path.stages)
    .filter(({ kind }) => kind === 'high_pass' || kind === 'low_pass');
  return new Set(stages.flatMap(({ settingPath }) => settingPath?.join('\n') ?? []));
}

/** `80 Hz, 24 dB/oct`. */
export function outcomeText({ filter }: CrossoverOutcome): string {
  return filterText(filter.frequency_hz, filter.slope_db_oct)
    .replace(/^\{ frequency: /, '')
    .replace(' slope: ', ' ')
    .replace(/ \}$/, '');
}

/** The least of the sum within half an octave of the crossover. */
export function dipNear({ curve, filter }: CrossoverOutcome): {
  readonly frequency_hz: number;
  readonly level_db: number;
} {
  let dip = { frequency_hz: filter.frequency_hz, level_db: Infinity };
  for (const [index, frequency_hz] of curve.frequency_hz.entries()) {
    const level_db = curve.sum_db[index] ?? Infinity;
    const octaves = Math.abs(Math.log2(frequency_hz / filter.frequency_hz));
    if (octaves <= 0.5 + 1e-6 && level_db < dip.level_db) dip = { frequency_hz, level_db };
  }
  return dip;
}
