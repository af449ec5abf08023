// Section "Measurements": what the takes of each session show, over what was planned, and which takes are still to be made.

import type { VNode } from 'preact';
import type { MeasuredSession } from '../../../core/measured/measuredFigures.ts';
import { recordingsOf } from '../../../core/measured/measuredOf.ts';
import { Section } from '../section.tsx';
import { placeOf, ToSource } from '../source.tsx';
import type { View } from '../view.ts';
import { plainName } from '../words.ts';
import { AverageCharts } from './averageCharts.tsx';
import { DecayBands } from './decayBands.tsx';
import { EqFromTakes } from './eqFromTakes.tsx';
import { NoiseTable } from './noiseTable.tsx';
import { RecipeTable } from './recipeTable.tsx';
import { Refusals } from './refusals.tsx';
import { TakeCharts } from './takeCharts.tsx';
import { TakesTable } from './takesTable.tsx';
import { Verdict } from './verdict.tsx';

export function MeasuredPart({ setup, show }: View): VNode {
  const { measured, room } = setup;
  const hasTakes = room.sessions?.some((session) => recordingsOf(session).length !== 0) ?? false;
  return (
    <Section
      id="measurements"
      title="Measurements"
      brief="What was heard, over what was planned. Measured: thick and unbroken; planned: thin and broken."
    >
      {!hasTakes ? (
        <p class="missing">The file names no takes yet.</p>
      ) : !measured ? (
        <p class="missing">Being read …</p>
      ) : (
        measured.sessions.map((session) => (
          <SessionPart key={session.session} session={session} setup={setup} show={show} />
        ))
      )}
      <RecipeTable setup={setup} show={show} />
    </Section>
  );
}

function SessionPart({
  session,
  ...view
}: View & { readonly session: MeasuredSession }): VNode | null {
  const { takes, noise = [], calibrator } = session;
  if (takes.length === 0 && noise.length === 0 && !calibrator) return null;
  const verdicts = view.setup.verification?.sessions ?? [];
  return (
    <>
      <h3 {...placeOf(session.path)}>
        <ToSource path={session.path}>{plainName(session.session)}</ToSource>
        {session.date === null ? '' : `, ${session.date}`}
      </h3>
      <Verdict verdict={verdicts.find((one) => one.session === session.session) ?? null} />
      {takes.length === 0 ? null : <TakesTable {...view} session={session} />}
      <NoiseTable {...view} session={session} />
      <TakeCharts {...view} session={session} />
      <EqFromTakes {...view} session={session} />
      <DecayBands {...view} session={session} />
      <AverageCharts {...view} session={session} />
      <Refusals session={session} />
    </>
  );
}
