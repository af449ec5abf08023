// A facility file on its own: items whose gear there is not, labels that are none, and which words refer to what.

import type { ParsedFile } from '../model/parsedFile.ts';
import type { ResolveContext } from '../model/resolved.ts';
import { withinCount } from '../parse/limits.ts';
import { referLayout } from './channels.ts';
import type { Checked } from './checkGear.ts';
import { gearLibrary } from './gearLibrary.ts';
import { below, entriesOf, itemsOf, rootPlace, textOf } from './place.ts';
import { checkFindingCodes } from './policy.ts';
import { isFaulty, startReading } from './reading.ts';
import { modelOf } from './users.ts';

/** @param context as for a room; its own `facility` is not looked at */
export function checkFacility(facility: ParsedFile, context: ResolveContext): Checked {
  const reading = startReading(facility, context.defaultSampleRate_hz);
  const root = rootPlace(facility.root);
  const library = gearLibrary(context.gear);
  for (const item of entriesOf(below(root, 'items'))) {
    const gear = below(item, 'gear');
    const id = isFaulty(reading, gear.path) ? null : textOf(gear);
    if (id !== null) modelOf(reading, gear, id, library);
  }
  for (const policy of entriesOf(below(root, 'policies'))) {
    for (const layout of itemsOf(below(policy, 'layouts')))
      referLayout(reading, layout, context, 'optional');
    checkFindingCodes(reading, below(policy, 'severity'), context.findingCodes);
  }
  return { problems: withinCount(reading.problems), references: reading.references };
}
