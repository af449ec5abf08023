// Section "Boundaries": the nearest surfaces of each source, the notches that they bring, the first reflections at the seat.

import type { VNode } from 'preact';
import { surfaceName } from '../../core/rules/surfaceName.ts';
import type { BoundaryFigures, PlacementFigures } from '../../core/setup.ts';
import { sourcePath } from './arrivalsPart.tsx';
import { BoundaryCurves } from './boundaryCurves.tsx';
import { Fold, Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import type { View } from './view.ts';
import { MISSING, shown, signed, typeset } from './words.ts';

export function BoundariesPart({ setup, show }: View): VNode | null {
  const told = setup.boundaries.filter(({ surfaces }) => 0 < surfaces.length);
  if (told.length === 0) return null;
  return (
    <Section
      id="boundaries"
      title="Boundaries"
      brief="A surface a quarter of a wavelength behind a loudspeaker takes that frequency away; near surfaces add to a subwoofer’s output."
    >
      <WideTable label="Nearest surfaces of each loudspeaker">
        <TableHead
          columns={['source', 'nearest surface', 'second', 'third', { figures: 'gain at 40 Hz' }]}
        />
        <tbody>
          {told.map((figures) => (
            <SurfaceRow key={figures.source} figures={figures} view={{ setup, show }} />
          ))}
        </tbody>
      </WideTable>
      <BoundaryCurves curves={setup.field?.boundaries ?? []} />
      <Placements setup={setup} show={show} />
      <Fold id="boundaries-reflections" summary="First reflections at the reference seat">
        <Reflections setup={setup} show={show} />
      </Fold>
    </Section>
  );
}

function SurfaceRow({
  figures,
  view: { setup, show },
}: {
  readonly figures: BoundaryFigures;
  readonly view: View;
}): VNode {
  const path = sourcePath(setup, figures.source);
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>{figures.source}</ToSource>
      </th>
      {[0, 1, 2].map((rank) => {
        const surface = figures.surfaces[rank];
        return (
          <td key={rank}>
            {surface === undefined
              ? MISSING
              : `${surfaceName(surface.surface)} ${show.length(surface.distance_m)}, notch ${show.frequency(surface.quarterWave_hz)}`}
          </td>
        );
      })}
      <td class="number">
        {figures.powerGainAt40Hz_db === null
          ? ''
          : signed(figures.powerGainAt40Hz_db, show.level(figures.powerGainAt40Hz_db))}
      </td>
    </tr>
  );
}

function Placements({ setup, show }: View): VNode | null {
  const placement = setup.placement ?? [];
  if (placement.length === 0) return null;
  return (
    <WideTable label="Where the subwoofers stand">
      <TableHead
        columns={[
          'subwoofer',
          { figures: 'right of the width’s middle' },
          { figures: 'behind the depth’s middle' },
          { figures: 'to the nearest corner' },
          { figures: 'in front of the mains’ line' },
        ]}
      />
      <tbody>
        {placement.map((figures) => (
          <PlacementRow key={figures.source} figures={figures} show={show} />
        ))}
      </tbody>
    </WideTable>
  );
}

/** `behindMains_m` counts towards the front wall: seen from the seat, behind the mains. */
function PlacementRow({
  figures,
  show,
}: {
  readonly figures: PlacementFigures;
  readonly show: View['show'];
}): VNode {
  const path = ['subwoofers', figures.source, 'at'];
  const forward_m = figures.behindMains_m === null ? null : -figures.behindMains_m;
  return (
    <tr {...placeOf(path)}>
      <th scope="row">
        <ToSource path={path}>{figures.source}</ToSource>
      </th>
      <td class="number">{shown(figures.fromWidthMidline_m, show.length)}</td>
      <td class="number">{shown(figures.fromDepthMidline_m, show.length)}</td>
      <td class="number">{shown(figures.fromCorner_m, show.length)}</td>
      <td class="number">{shown(forward_m, show.length)}</td>
    </tr>
  );
}

function Reflections({ setup, show }: View): VNode {
  return (
    <WideTable label="First reflections at the reference seat">
      <TableHead
        columns={[
          'source',
          'surface',
          { figures: 'longer by' },
          { figures: 'later by' },
          { figures: 'level' },
          { figures: 'first notch' },
          { figures: 'depth' },
        ]}
      />
      <tbody>
        {setup.boundaries.flatMap(({ source, reflections }) =>
          reflections.map((reflection) => (
            <tr key={`${source} ${reflection.surface}`} {...placeOf(sourcePath(setup, source))}>
              <th scope="row">{source}</th>
              <td>{surfaceName(reflection.surface)}</td>
              <td class="number">{show.length(reflection.pathDifference_m)}</td>
              <td class="number">{show.time(reflection.behind_s)}</td>
              <td class="number">{typeset(show.level(reflection.level_db))}</td>
              <td class="number">{show.frequency(reflection.notch_hz)}</td>
              <td class="number">{typeset(show.level(reflection.depth_db))}</td>
            </tr>
          )),
        )}
      </tbody>
    </WideTable>
  );
}
