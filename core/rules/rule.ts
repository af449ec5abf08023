// A rule: data (code, severity, why, what to do, source) and two pure functions (find, message).

import type { Path } from '../../schema/model/path.ts';
import type { Related, Severity } from '../../schema/model/problem.ts';
import type { Figure, Fix } from '../finding.ts';
import type { Setup } from '../setup.ts';
import type { Show } from '../show.ts';

/** One place where a rule applies. `severity` only where this place deserves another than the rule's own. */
export interface Found<Fact> {
  readonly path: Path;
  readonly fact: Fact;
  readonly severity?: Severity;
  readonly measured?: Figure;
  readonly limit?: Figure;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
}

/** What a rule may ask for besides the Setup. The Setup that it gets holds the findings of the rules before it. */
export interface RuleContext {
  /** ISO date; null where nobody knows: then nothing ends. */
  readonly today: string | null;
  /** The codes of all rules. */
  readonly codes: ReadonlySet<string>;
}

export interface RuleOf<Fact> {
  /** Stable for ever; also the name of its page. */
  readonly code: string;
  readonly severity: Severity;
  /** A few words, for lists ("Subwoofer on the midline"). */
  readonly title: string;
  /** Why it matters, a sentence. */
  readonly reason: string;
  /** What to do, a sentence. */
  readonly advice: string;
  /** A standard and clause, or 'common practice, no source'. */
  readonly source: string;
  readonly find: (setup: Setup, context: RuleContext) => Iterable<Found<Fact>>;
  readonly message: (fact: Fact, show: Show) => string;
}

/** A rule whose kind of fact is its own affair: what lists and the runner work with. */
export interface Rule extends Omit<RuleOf<never>, 'find' | 'message'> {
  readonly find: (setup: Setup, show: Show, context?: RuleContext) => Iterable<Found<string>>;
}

/** Closes a rule over its own kind of fact: what comes out finds places with their message ready. */
export function defineRule<Fact>(rule: RuleOf<Fact>): Rule {
  return {
    ...rule,
    *find(setup, show, context = NOTHING_KNOWN) {
      for (const found of rule.find(setup, context))
        yield { ...found, fact: rule.message(found.fact, show) };
    },
  };
}

const NOTHING_KNOWN: RuleContext = { today: null, codes: new Set() };
