// The fit itself: a look along wide open sides, all figures at once, the mesh moved to where they came to, then fewer figures, and the report.

import type { Matrix } from 'ml-matrix';
import type { InSlices } from '../search/transferMap.ts';
import type { Setup } from '../setup.ts';
import type { MeasuredSession } from './measuredFigures.ts';
import { extentsOf } from './otherRoom.ts';
import type { NotFitted, RoomFromTakes } from './roomFromTakes.ts';
import { roomEdit } from './roomFromTakesEdit.ts';
import { type OpenFigures, variantOf } from './roomFromTakesFigures.ts';
import { type BassEvidence, type Offs, offsOf, rms_db } from './roomFromTakesMisfit.ts';
import {
  type AbsorptionModel,
  absorptionModels,
  criterion,
  writtenModel,
} from './roomFromTakesModels.ts';
import { isClear, reported, type Told, toldBy, type Written } from './roomFromTakesReport.ts';
import {
  bandCount,
  bandLoss_db2,
  decayLoss,
  errorsOf,
  normal,
  type Solved,
  slopesAt,
  solveInSlices,
  type Task,
} from './roomFromTakesSolve.ts';
import { BAND_DB } from './takeErrors.ts';

/** Tables and decay times leave at most so much open. Common practice, no source. */
const MOST_RATIO = 3;
/** Of the speed of sound: more is another fault. */
const MOST_SPEED = 0.05;
/** How many sixths of an octave the usual error of a plan is worth against what the takes themselves show of it. Our own figure. */
const USUAL_WORTH = 8;
/** Less than this is no change anyone would write down. */
const LEAST = { log: 0.05, gain_db: 0.05 } as const;
/** The mesh is moved at most so often; moves of less than half of every error end it. */
const MOST_MOVES = 3;
const STILL = 0.5;

export function* fittedInSlices(
  setup: Setup,
  session: MeasuredSession,
  evidence: BassEvidence,
  open: OpenFigures,
): InSlices<RoomFromTakes | NotFitted> {
  const task = taskOf(setup, evidence, open);
  const stated = offsOf(evidence, {});
  const models = absorptionModels(open);
  const richest = models.at(-1);
  if (stated === null || richest === undefined) return 'no takes';
  const start = yield* scanned(setup, task, open);
  const whole = yield* wholeInSlices(evidence, open, task, richest, start);
  if (whole === null) return 'undetermined';
  const { solved, error_db } = whole;
  const chosen = yield* chosenInSlices(task, models, solved, error_db);
  if (chosen === null) return 'undetermined';
  const slopes = yield* slopesAt(task, chosen.solved.values, chosen.solved.offs);
  const last = yield* solveInSlices(task, chosen.report, chosen.solved.values, error_db, {
    slopes,
  });
  if (last === null) return 'undetermined';
  const told = toldBy(open, chosen.report, { ...last, slopes }, error_db);
  const isAny = [...told.bands, ...told.sides].some(({ isTold }) => isTold);
  if (!isAny) return 'undetermined';
  const written = yield* writtenInSlices(evidence, open, task, { chosen, told, error_db, slopes });
  const report = reported(open, told, written);
  const before_db = rms_db(stated);
  const after_db = written === null ? before_db : written.after_db;
  const isWorth = written !== null && LEAST.gain_db <= before_db - after_db;
  const fix = isWorth ? roomEdit(setup, session, open, written.values, report) : null;
  return {
    session: session.session,
    takes: evidence.data.map(({ planned }) => planned.take.id),
    before_db,
    after_db: fix === null ? before_db : after_db,
    fix,
    form: chosen.form,
    decays_hz: evidence.decays.map(({ frequency_hz }) => frequency_hz),
    spread_db: error_db,
    ...report,
  };
}

function taskOf({ room }: Setup, evidence: BassEvidence, open: OpenFigures): Task {
  const extents = extentsOf(room.space);
  const octaves = open.bands_hz;
  return {
    offsAt: (values) => offsOf(evidence, variantOf(open, values)),
    step: [
      ...octaves.map(() => 0.05),
      ...open.open_m.map((_, axis) => STEP_SHARE * (extents?.extent_m[axis] ?? 1)),
      STEP_SHARE,
    ],
    most: [...octaves.map(() => Math.log(MOST_RATIO)), ...open.open_m, MOST_SPEED],
  };
}

/** A step that moves modes by a tenth of their width or so. */
const STEP_SHARE = 0.001;
/** Modes keep to their own slopes within this share of a side. */
const SCAN_SHARE = 0.015;

/** Sides that are open so wide that slopes lead astray are looked along first, one after the other. */
function* scanned(
  { room }: Setup,
  task: Task,
  { open_m, bands_hz }: OpenFigures,
): InSlices<readonly number[]> {
  const extents = extentsOf(room.space);
  let best: readonly number[] = task.most.map(() => 0);
  let least = costAt(task, best);
  for (const [axis, half_m] of open_m.entries()) {
    const step_m = SCAN_SHARE * (extents?.extent_m[axis] ?? 1);
    const count = Math.floor(half_m / step_m);
    const from = best;
    for (let n = -count; n <= count; n++) {
      yield 0;
      const values = from.map((value, i) => (i === bands_hz.length + axis ? n * step_m : value));
      const cost = costAt(task, values);
      if (cost < least) [best, least] = [values, cost];
    }
  }
  return best;
}

function costAt({ offsAt }: Task, values: readonly number[]): number {
  const offs = offsAt(values);
  if (offs === null) return Number.POSITIVE_INFINITY;
  return bandLoss_db2(offs, BAND_DB) / BAND_DB ** 2 + decayLoss(offs);
}

/** All figures, with the mesh where they came to, and the error of levels that they leave. */
function* wholeInSlices(
  evidence: BassEvidence,
  open: OpenFigures,
  task: Task,
  model: AbsorptionModel,
  start: readonly number[],
): InSlices<{ readonly solved: Solved; readonly error_db: number } | null> {
  let error_db = BAND_DB;
  let solved = yield* solveInSlices(task, model, start, error_db);
  for (let move = 0; solved !== null && move < MOST_MOVES; move++) {
    error_db = errorOf_db(solved.offs);
    const from: Solved = solved;
    const isMesh = evidence.levels.anchor() !== null;
    if (isMesh) evidence.levels.anchorAt(variantOf(open, from.values));
    yield 0;
    solved = yield* solveInSlices(task, model, from.values, error_db, from);
    if (solved === null || (!isMesh && move === 1)) break;
    if (isMesh && isStill(from, solved, model, error_db)) break;
  }
  return solved && { solved, error_db: errorOf_db(solved.offs) };
}

function isStill(from: Solved, to: Solved, model: AbsorptionModel, error_db: number): boolean {
  const errors = errorsOf(normal(to, model, error_db), model);
  return to.values.every(
    (value, i) => Math.abs(value - (from.values[i] ?? 0)) <= STILL * (errors[i] ?? 0) + 1e-9,
  );
}

/** From what is usual, and from what the fit leaves. */
function errorOf_db(offs: Offs): number {
  let error_db = BAND_DB;
  for (let round = 0; round < 5; round++)
    error_db = Math.sqrt(
      (USUAL_WORTH * BAND_DB ** 2 + bandLoss_db2(offs, error_db)) / (USUAL_WORTH + bandCount(offs)),
    );
  return error_db;
}

interface Chosen {
  /** `stated` where no change of absorption is borne out. */
  readonly form: AbsorptionModel['form'];
  /** The model whose figures are told: one factor where none is borne out. */
  readonly report: AbsorptionModel;
  readonly solved: Solved;
}

/** The model with the greatest evidence. */
function* chosenInSlices(
  task: Task,
  models: readonly AbsorptionModel[],
  whole: Solved,
  error_db: number,
): InSlices<Chosen | null> {
  const all: { model: AbsorptionModel; solved: Solved; worth: number }[] = [];
  for (const model of models) {
    const solved = yield* solveInSlices(task, model, whole.values, error_db, whole);
    if (solved !== null) all.push({ model, solved, worth: criterion(model, solved, error_db) });
  }
  const [first, ...others] = all;
  if (first === undefined) return null;
  const best = others.reduce((a, b) => (b.worth < a.worth ? b : a), first);
  const told = best.model.form === 'stated' ? (others[0] ?? best) : best;
  return { form: best.model.form, report: told.model, solved: told.solved };
}

interface Weighed extends Written {
  /** With the file as it would then be. */
  readonly after_db: number;
}

interface ForWriting {
  readonly chosen: Chosen;
  readonly told: Told & { readonly values: readonly number[] };
  readonly error_db: number;
  readonly slopes: Matrix;
}

/** Only what is clear, fitted once more with all else as the file has it; null where nothing is. */
function* writtenInSlices(
  evidence: BassEvidence,
  open: OpenFigures,
  task: Task,
  { chosen, told, error_db, slopes }: ForWriting,
): InSlices<Weighed | null> {
  const sides = told.sides.flatMap((side, axis) => (isClear(side) ? [axis] : []));
  const hasAbsorption =
    chosen.form !== 'stated' &&
    told.bands.some(({ absorption_ratio }) => LEAST.log <= Math.abs(Math.log(absorption_ratio)));
  const form = hasAbsorption ? chosen.form : 'stated';
  if (form === 'stated' && sides.length === 0) return null;
  const model = writtenModel(open, form, sides);
  const start = told.values.map((value, i) => (i < task.most.length - 1 ? value : 0));
  const solved = yield* solveInSlices(task, model, start, error_db, { slopes });
  if (solved === null) return null;
  const variant = variantOf(open, solved.values);
  evidence.levels.anchorAt(variant);
  yield 1;
  const offs = offsOf(evidence, variant);
  return offs && { values: solved.values, hasAbsorption, sides, after_db: rms_db(offs) };
}
