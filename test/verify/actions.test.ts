// Code actions on takes: fit an equaliser to a session, fit the room to it; only where there is something to fit to.

import { beforeAll, expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { eqActions } from '../../server/features/eqActions.ts';
import { fitRoomActions } from '../../server/features/fitRoomActions.ts';
import { FIT_EQUALISER, FIT_ROOM } from '../../server/protocol/commands.ts';
import { readFitArgument } from '../../server/search/fitCommand.ts';
import { readFitRoomArgument } from '../../server/search/fitRoomCommand.ts';
import { createFits } from '../../server/search/fits.ts';
import { measuredRoom } from '../measured/measuredRoom.ts';

let analysis: Analysis;
beforeAll(async () => {
  analysis = await measuredRoom();
});

/** The cursor on the first place where a text stands. */
function on(text: string) {
  const start = analysis.source.parsed.text.indexOf(text);
  if (start < 0) throw new Error(`no ${text}`);
  return { start, end: start };
}

test('the room is fitted to a session from its space and from the session itself', () => {
  const argument = { uri: analysis.source.uri, session: 'autumn' };
  for (const place of ['size:', 'autumn:', 'left: { file']) {
    const [action] = fitRoomActions(analysis, on(place), undefined);
    expect(action?.title, place).toBe('Fit the room to the takes of `autumn`');
    expect(action?.command).toMatchObject({ command: FIT_ROOM, arguments: [argument] });
  }
  expect(fitRoomActions(analysis, on('speakers:'), undefined)).toEqual([]);
  expect(fitRoomActions(analysis, on('size:'), ['quickfix'])).toEqual([]);
  const unread = { ...analysis, setup: analysis.setup && { ...analysis.setup, measured: null } };
  expect(fitRoomActions(unread, on('size:'), undefined)).toEqual([]);
});

test('an equaliser is fitted to a session with a take of a loudspeaker that it serves', () => {
  const { setup } = analysis;
  if (setup === null) throw new Error('no setup');
  const eq = {
    device: 'sub',
    stage: 'eq',
    kind: 'eq',
    fromPort: 'bass',
    toPort: 'driver',
    settingPath: ['settings', 'sub', 'eq'],
  } as const;
  const onWayTo = (id: string): Analysis => ({
    ...analysis,
    setup: {
      ...setup,
      signalPaths: setup.signalPaths.map((path) =>
        path.target === id ? { ...path, stages: [...path.stages, eq] } : path,
      ),
    },
  });
  const titles = (of: Analysis) =>
    eqActions(of, on('  sub: { item'), createFits(), undefined).map(({ title }) => title);
  const place = on('  sub: { item');
  expect(place.start).toBeGreaterThan(0);
  const served = eqActions(
    onWayTo('left'),
    { start: place.start + 3, end: place.start + 3 },
    createFits(),
    undefined,
  );
  expect(served.map(({ title }) => title)).toEqual([
    'Fit EQ of `sub` to the predicted response',
    'Fit EQ of `sub` to the takes of `autumn`',
  ]);
  expect(served[1]?.command).toMatchObject({
    command: FIT_EQUALISER,
    arguments: [{ device: 'sub', session: 'autumn' }],
  });
  expect(titles(onWayTo('right')).filter((title) => title.includes('takes'))).toEqual([]);
});

test('arguments are read with care', () => {
  expect(readFitRoomArgument({ uri: 'a', session: 'b' })).toEqual({
    uri: 'a',
    session: 'b',
    quiet: false,
  });
  for (const wrong of [null, 3, {}, { uri: 'a' }, { uri: 1, session: 'b' }])
    expect(readFitRoomArgument(wrong)).toBeNull();
  expect(readFitArgument({ uri: 'a', device: 'b', session: 'c' })).toMatchObject({ session: 'c' });
  expect(readFitArgument({ uri: 'a', device: 'b', session: 7 })).toEqual({
    uri: 'a',
    device: 'b',
    quiet: false,
  });
});
