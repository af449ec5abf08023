// The response files of a gear model: which it names, and the model with what they tell put in.

import type { Control, Gear, GearResponse, LowEnd, ResponseFile } from '../model/gear.ts';
import { below, entriesOf, type NamedPlace, rangeOf } from './place.ts';
import { type Reading, refer } from './reading.ts';
import { text } from './values.ts';

/** In the order in which the model names them. */
export function responseFiles(reading: Reading, model: NamedPlace): readonly ResponseFile[] {
  const named = (place: NamedPlace, of: ResponseFile['of']): readonly ResponseFile[] => {
    const file = text(reading, place, 'optional');
    const range = rangeOf(place);
    if (file === null || range === null) return [];
    refer(reading, 'file', { id: file, range, path: place.path }, { file, path: [] });
    return [{ file, path: place.path, of }];
  };
  const ends = (['low_end', 'high_end'] as const).flatMap((kind) =>
    entriesOf(below(model, kind))
      .filter(({ name }) => name === 'response')
      .flatMap((place) => named(place, { kind })),
  );
  const controls = below(model, 'controls');
  const choices = [...entriesOf(controls), ...entriesOf(below(controls, 'each_port'))].flatMap(
    (control) =>
      entriesOf(below(control, 'responses'))
        .filter(({ name }) => !name.startsWith('x_'))
        .flatMap((place) =>
          named(place, { kind: 'control', control: control.name, choice: place.name }),
        ),
  );
  return [...ends, ...choices];
}

/** Under which its response is handed over: a loudspeaker's own is re its pass band, what a switch does to it is not. */
export function responseKey({ file, of }: Pick<ResponseFile, 'file' | 'of'>): string {
  return `${of.kind === 'control' ? 'change' : 'own'} ${file}`;
}

// As the readings of gear files: the key is a model that is never changed in place.
const known = new WeakMap<Gear, { readonly responses: Responses; readonly gear: Gear }>();

type Responses = ReadonlyMap<string, GearResponse>;

/** The very same object for the same responses. What was not read leaves the model as it stands in the file. */
export function withResponses<Of extends Gear | null>(
  gear: Of,
  responses: Responses | undefined,
): Of | Gear {
  if (gear === null || gear.responseFiles === undefined || responses === undefined) return gear;
  const last = known.get(gear);
  if (last?.responses === responses) return last.gear;
  const made = joined(gear, gear.responseFiles, responses);
  known.set(gear, { responses, gear: made });
  return made;
}

function joined(gear: Gear, files: readonly ResponseFile[], responses: Responses): Gear {
  const of = (kind: 'low_end' | 'high_end') => {
    const named = files.find((one) => one.of.kind === kind);
    const response = named && responses.get(responseKey(named));
    return named && response ? { file: named.file, response } : null;
  };
  const low = of('low_end');
  const high = of('high_end')?.response ?? null;
  return {
    ...gear,
    lowEnd: low === null ? gear.lowEnd : lowEndOf(low.file, low.response),
    highEnd: high?.high ? { ...high.high, response: high } : gear.highEnd,
    controls: gear.controls.map((control) => withChoices(control, files, responses)),
  };
}

/** A fourth-order slope stands for one that the file does not reach: it then falls beyond what is known. */
const USUAL_SLOPE_DB_OCT = 24;

function lowEndOf(file: string, response: GearResponse): LowEnd {
  const [lowest_hz] = response.known_hz;
  return {
    minus6db_hz: response.low?.minus6db_hz ?? lowest_hz,
    slope_db_oct: response.low?.slope_db_oct ?? USUAL_SLOPE_DB_OCT,
    kind: null,
    protection: null,
    responseFile: file,
    response,
  };
}

function withChoices(
  control: Control,
  files: readonly ResponseFile[],
  responses: Responses,
): Control {
  if (control.kind !== 'switch') return control;
  const told = files.flatMap((named) => {
    const { of } = named;
    const response = responses.get(responseKey(named));
    return of.kind === 'control' && of.control === control.name && response
      ? [{ choice: of.choice, response }]
      : [];
  });
  return told.length === 0 ? control : { ...control, responses: told };
}
