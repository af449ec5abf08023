// `groundbass check`: what is wrong with files, folders or the whole facility.

import { type Command, Option } from 'commander';
import type { Severity } from '../../../schema/model/problem.ts';
import type { Analysis } from '../../analysis.ts';
import { applied, safeEdits } from '../../edits.ts';
import { diskPath } from '../../node/nodeFiles.ts';
import { isAtLeast, SEVERITIES } from '../../remarks/severity.ts';
import { beyondBaseline, readBaseline } from '../baseline.ts';
import { type Reading, readPaths } from '../files.ts';
import type { Io } from '../io.ts';
import { EXIT } from '../misuse.ts';
import type { Outcome } from '../run.ts';
import { WRITERS, type WriterName } from '../writers/writers.ts';

interface CheckOptions {
  readonly format: WriterName;
  readonly failOn: Severity | 'never';
  readonly fix: boolean;
  readonly quiet: boolean;
  readonly baseline?: string;
}

export function addCheck(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('check')
    .description('say what is wrong with room, gear and facility files')
    .argument('[paths...]', 'files or folders; - for standard input', ['.'])
    .addOption(
      new Option('-f, --format <format>', 'how findings are written')
        .choices(Object.keys(WRITERS))
        .default('text'),
    )
    .addOption(
      new Option('--fail-on <severity>', 'exit with 1 for findings as grave as this')
        .choices([...SEVERITIES, 'never'])
        .default('error'),
    )
    .option('--fix', 'take every safe fix, then report what is left', false)
    .option('--baseline <file>', 'leave out what this output of --format json knows already')
    .option('-q, --quiet', 'leave out everything below warnings', false)
    .addHelpText(
      'after',
      `
Examples:
  $ groundbass check
  $ groundbass check rooms/heron.room.yaml --fail-on warning
  $ groundbass check --format json | jq '.summary'
  $ groundbass check --format sarif > findings.sarif
  $ groundbass check --format json > known.json; groundbass check --baseline known.json --fail-on warning
  $ git show HEAD:rooms/heron.room.yaml | groundbass check -
  $ groundbass check - --fix < draft.room.yaml > better.room.yaml
`,
    )
    .action(async (paths: readonly string[], options: CheckOptions) => {
      outcome.code = await check(paths, options, io);
    });
}

async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const baseline = options.baseline === undefined ? null : await readBaseline(options.baseline, io);
  const reading = await readPaths(paths, io);
  const analyses = options.fix ? await fixed(reading, io) : reading.analyses;
  const inputIsFixed = options.fix && paths.includes('-');
  const write = inputIsFixed ? io.err : io.out;
  const all = analyses.map((analysis) => ({
    name: reading.nameOf(analysis.source.uri),
    analysis,
    remarks: analysis.remarks.filter(
      ({ severity }) => !options.quiet || isAtLeast(severity, 'warning'),
    ),
  }));
  const { files, knownCount } =
    baseline === null ? { files: all, knownCount: 0 } : beyondBaseline(all, baseline);
  write(WRITERS[options.format](files, io));
  if (0 < knownCount) io.err(`${knownCount} known from ${options.baseline}, left out\n`);
  const threshold = options.failOn;
  const fails = files.some(({ remarks }) =>
    remarks.some(
      ({ severity, accepted }) =>
        accepted === null && threshold !== 'never' && isAtLeast(severity, threshold),
    ),
  );
  return fails ? EXIT.findings : EXIT.clean;
}

/** A cure may bring out another fault, which may have a cure of its own. */
const MOST_ROUNDS = 10;

async function fixed({ session, analyses }: Reading, io: Io): Promise<readonly Analysis[]> {
  const after: Analysis[] = [];
  for (const first of analyses) {
    let analysis = first;
    for (let round = 1; round <= MOST_ROUNDS; round += 1) {
      const { source, remarks } = analysis;
      const edits = safeEdits(source, remarks);
      if (edits.length === 0) break;
      session.open(source.uri, round, applied(source.parsed.text, edits), '');
      const next = await session.analysis(source.uri);
      if (next === null) break;
      analysis = next;
    }
    const { uri, parsed } = analysis.source;
    const path = diskPath(uri);
    if (first.source.version !== null) io.out(parsed.text);
    else if (path !== null && parsed.text !== first.source.parsed.text)
      await io.writeFile(path, parsed.text, { isNew: false });
    after.push((await session.whole(uri)) ?? analysis);
  }
  return after;
}
