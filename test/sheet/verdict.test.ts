// A session's verdict on the sheet, in the hover and in figures: causes that hold together, and what nobody can tell.

import { expect, test } from 'vitest';
import { measuredFigures } from '../../core/measured/measuredOf.ts';
import { NOTHING_READ } from '../../core/measured/takeReading.ts';
import type { LikelyCause, SessionVerdict } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import { measuredJson } from '../../server/figures/measuredFigures.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { explainVerdict } from '../../server/words/verdictWords.ts';
import { stereoSetup } from '../support/setups.ts';
import { sessionOf } from '../synthesis/takes.ts';

const TAKE = { id: 'left', drive: 'L', sounding: ['left'], seat: 'mix' } as const;

function cause(kind: string, explanation: number, others: readonly string[]): LikelyCause {
  return {
    kind,
    path: ['speakers', 'left'],
    message: `${kind} of left seems otherwise`,
    before: 90,
    after: 12,
    evidence: [],
    fix: null,
    explanation,
    ...(others.length === 0 ? {} : { togetherWith: others }),
  };
}

function judged(verdict: Omit<SessionVerdict, 'session'>): Setup {
  const setup = stereoSetup();
  const sessions = [sessionOf({ seats: {} }, [TAKE], null)];
  return {
    ...setup,
    room: { ...setup.room, sessions },
    measured: measuredFigures({ sessions }, () => NOTHING_READ),
    verification: { takes: [], sessions: [{ session: 'seeded', ...verdict }] },
  };
}

function sheetText(setup: Setup): string {
  const html = renderSheet(setup, []);
  const section = html.split('<h2 id="measurements-title"')[1]?.split('</section>')[0] ?? '';
  return section.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
}

const TOGETHER: Omit<SessionVerdict, 'session'> = {
  verdict: 'explained',
  differs: true,
  causes: [
    cause('polarity', 1, ['another delay of left']),
    cause('delay', 1, ['the polarity of left turned over']),
    cause('port', 2, []),
  ],
  cannotTell: [],
  contradicted: [{ by: 'winter', isPutRight: true, message: 'It does not fit winter' }],
};

test('causes that hold together stand together, each with its own part; another explanation stands alone', () => {
  const text = sheetText(judged(TOGETHER));
  expect(text).toMatch(
    /Only together: polarity of left seems otherwise Of what the others leave, 90, it takes the misfit down to 12\. delay of left seems otherwise Of what the others leave, 90/,
  );
  expect(text).toMatch(
    /port of left seems otherwise Recomputed with it, the misfit falls from 90 to 12\./,
  );
  expect(text).toContain('It does not fit winter');
});

test('the hover of the session says the same', () => {
  expect(explainVerdict(judged(TOGETHER), 'seeded')?.lines).toEqual([
    'These takes differ from the plan; likely, the likeliest first:',
    'polarity of left seems otherwise (misfit 90 without it, 12 with it), and delay of left seems otherwise (misfit 90 without it, 12 with it)',
    'port of left seems otherwise (misfit 90 as stated, 12 with it)',
    'It does not fit winter',
  ]);
  expect(explainVerdict(judged(TOGETHER), 'another')).toBeNull();
});

test('undecided where nothing differs is told apart from undecided where something does', () => {
  const cannotTell = ['Undecided: left and right swapped would look the same in these takes'];
  const open = { verdict: 'undecided' as const, causes: [], cannotTell };
  const silent = sheetText(judged({ ...open, differs: false }));
  expect(silent).toMatch(/Nothing differs from the plan .* something may be otherwise/);
  expect(silent).toContain(cannotTell[0]);
  expect(sheetText(judged({ ...open, differs: true }))).toMatch(/they cannot tell why/);
});

test('figures have all of it', () => {
  const json = JSON.parse(JSON.stringify(measuredJson(judged(TOGETHER))));
  expect(json.sessions.seeded).toMatchObject({
    verdict: 'explained',
    differs: true,
    causes: [
      { explanation: 1, together_with: ['another delay of left'], misfit_before: 90 },
      { explanation: 1, together_with: ['the polarity of left turned over'] },
      { explanation: 2, together_with: [] },
    ],
    contradicted: [{ by: 'winter', put_right: true }],
  });
});
