// Our own requests, one line each: setups, places, edits and the sheet. Told in docs/protocol.md.

import type { Shared, World } from './connect.ts';
import { editsOf } from './edits.ts';
import type { FieldPhase } from './field/fieldPhase.ts';
import { quickLowEnd } from './field/quickLowEnd.ts';
import { baseName } from './files/uri.ts';
import { toOffset, toRange, toTextEdit } from './lsp/convert.ts';
import { pathAt } from './pathAt.ts';
import { rangeToShow } from './places.ts';
import {
  EDIT_REQUEST,
  type EditAnswer,
  type EditParams,
  SHEET_REQUEST,
  type SheetAnswer,
  type SheetParams,
} from './protocol/edits.ts';
import { LOW_END_REQUEST, type LowEndAnswer, type LowEndParams } from './protocol/lowEnd.ts';
import {
  PATH_AT_REQUEST,
  type PathAtAnswer,
  type PathAtParams,
  RANGE_OF_REQUEST,
  type RangeOfAnswer,
  type RangeOfParams,
} from './protocol/places.ts';
import { TRY_REQUEST, type TryAnswer, type TryParams } from './protocol/search.ts';
import { SETUP_REQUEST, type SetupAnswer, type SetupParams } from './protocol/setup.ts';
import { foundIn, type Searches } from './search/searches.ts';
import { guarded } from './serve.ts';
import { setupAnswer } from './setupAnswer.ts';
import type { TryOut } from './tryOut.ts';

export function connectOwn(
  { connection, session, log }: Shared,
  searches: Searches,
  tryOut: TryOut,
  { today, files, field }: Pick<World, 'today' | 'files'> & { readonly field: FieldPhase },
): void {
  connection.onRequest(
    LOW_END_REQUEST,
    guarded<LowEndParams, LowEndAnswer | null>(log, LOW_END_REQUEST, null, async (params) => {
      const analysis = await session.analysis(params.uri);
      return analysis === null ? null : quickLowEnd(analysis, params, field);
    }),
  );
  connection.onRequest(
    SETUP_REQUEST,
    guarded<SetupParams, SetupAnswer | null>(log, SETUP_REQUEST, null, async ({ uri }) => {
      const analysis = await session.analysis(uri);
      if (analysis === null) return null;
      const { setup } = analysis;
      const found = setup === null ? null : foundIn(searches, analysis.source.uri, setup);
      return setupAnswer(analysis, found);
    }),
  );
  connection.onRequest(
    TRY_REQUEST,
    guarded<TryParams, TryAnswer>(log, TRY_REQUEST, null, async ({ uri, version, edits }) => {
      const analysis = await session.analysis(uri);
      if (analysis === null || analysis.source.version !== version) return null;
      const options = { settings: session.settings(), today: today(), exists: files.exists };
      const tried = await tryOut.tried(analysis, edits, options);
      return tried === null ? null : setupAnswer(tried);
    }),
  );
  connection.onRequest(
    RANGE_OF_REQUEST,
    guarded<RangeOfParams, RangeOfAnswer>(log, RANGE_OF_REQUEST, null, async ({ uri, path }) => {
      const source = (await session.analysis(uri))?.source;
      return source ? toRange(source.text, rangeToShow(source.parsed, path)) : null;
    }),
  );
  connection.onRequest(
    PATH_AT_REQUEST,
    guarded<PathAtParams, PathAtAnswer>(log, PATH_AT_REQUEST, null, async ({ uri, position }) => {
      const source = (await session.analysis(uri))?.source;
      return source ? pathAt(source.parsed, toOffset(source.text, position)) : null;
    }),
  );
  connection.onRequest(
    EDIT_REQUEST,
    guarded<EditParams, EditAnswer>(log, EDIT_REQUEST, null, async ({ uri, version, edits }) => {
      const source = (await session.analysis(uri))?.source;
      if (!source || source.version !== version) return null;
      return editsOf(source, edits)?.map((edit) => toTextEdit(source.text, edit)) ?? null;
    }),
  );
  connection.onRequest(
    SHEET_REQUEST,
    guarded<SheetParams, SheetAnswer>(log, SHEET_REQUEST, null, async ({ uri }) => {
      const analysis = await session.whole(uri);
      if (!analysis?.setup) return null;
      // Loaded when first asked for: it is the heaviest part, and most sessions never need it.
      const { sheetOf } = await import('./sheetOf.ts');
      return { html: sheetOf(analysis, analysis.setup, baseName(uri)) };
    }),
  );
}
