// Section "Layout": each position of the layout in force, where its loudspeaker stands, and whether that fits.

import type { VNode } from 'preact';
import type { LayoutFigures } from '../../core/setup.ts';
import { sourcePath } from './arrivalsPart.tsx';
import { Mark } from './mark.tsx';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import { degrees } from './units.ts';
import type { View } from './view.ts';
import { MISSING, shown, typeset } from './words.ts';

export function LayoutPart({ setup, show }: View): VNode | null {
  if (setup.layouts.length === 0) return null;
  return (
    <Section
      id="layout"
      title="Layout against the standard"
      brief="Azimuths count to the listener’s left."
    >
      {setup.layouts.map((layout) => (
        <OneLayout
          key={`${layout.layout} ${layout.set ?? ''} ${layout.seat}`}
          layout={layout}
          view={{ setup, show }}
        />
      ))}
    </Section>
  );
}

function OneLayout({
  layout,
  view,
}: {
  readonly layout: LayoutFigures;
  readonly view: View;
}): VNode {
  const { show } = view;
  const path = layout.set === null ? ['targets', 'layout'] : ['sets', layout.set, 'layout'];
  return (
    <>
      <h3>
        <ToSource path={path}>{layout.layout}</ToSource>
        {layout.set === null ? '' : `, set ${layout.set}`}, from {layout.seat}
      </h3>
      <p>
        {`Base width ${shown(layout.baseWidth_m, show.length)}, listening distance ${shown(layout.listeningDistance_m, show.length)}. ${layout.source}.`}
      </p>
      <WideTable label={`Positions of ${layout.layout}`}>
        <TableHead
          columns={[
            'position',
            'channel',
            'loudspeaker',
            { figures: 'azimuth' },
            { figures: 'wanted' },
            { figures: 'elevation' },
            { figures: 'wanted' },
            'fits',
          ]}
        />
        <tbody>
          {layout.positions.map((position) => (
            <PositionRow key={position.label} position={position} view={view} />
          ))}
        </tbody>
      </WideTable>
      <OtherSeats layout={layout} show={show} />
    </>
  );
}

/** A standard is for one seat: what the others hear is told, not judged. */
function OtherSeats({
  layout: { otherSeats },
  show,
}: {
  readonly layout: LayoutFigures;
  readonly show: View['show'];
}): VNode | null {
  if (otherSeats === undefined || otherSeats.length === 0) return null;
  return (
    <ul class="plain">
      {otherSeats.map(({ seat, positions, worst_rad }) => {
        const off = positions.filter(({ beyondAzimuth_rad }) => LEAST_RAD < beyondAzimuth_rad);
        return (
          <li key={seat} {...placeOf(['seats', seat])}>
            <ToSource path={['seats', seat]}>{seat}</ToSource>
            {off.length === 0
              ? ': within the angles of the standard.'
              : `: up to ${show.angle(worst_rad)} outside the angles of the standard (${off
                  .map(
                    ({ channel, beyondAzimuth_rad }) =>
                      `${channel} ${show.angle(beyondAzimuth_rad)}`,
                  )
                  .join(', ')}).`}
          </li>
        );
      })}
    </ul>
  );
}

/** A tenth of a degree is the last digit shown. */
const LEAST_RAD = Math.PI / 1800;

function PositionRow({
  position,
  view: { setup, show },
}: {
  readonly position: LayoutFigures['positions'][number];
  readonly view: View;
}): VNode {
  const { label, channel, speaker, azimuth_rad, elevation_rad, fits } = position;
  const path = speaker === null ? ['speakers'] : [...sourcePath(setup, speaker), 'at'];
  return (
    <tr {...placeOf(path)}>
      <th scope="row">{label}</th>
      <td>{channel}</td>
      <td>{speaker === null ? 'none' : <ToSource path={path}>{speaker}</ToSource>}</td>
      <td class="number">{shown(azimuth_rad, show.angle)}</td>
      <td class="number">{rangeText(position.wantAzimuth_rad)}</td>
      <td class="number">{shown(elevation_rad, show.angle)}</td>
      <td class="number">{rangeText(position.wantElevation_rad)}</td>
      <td class="state">
        {fits === null ? (
          MISSING
        ) : (
          <>
            <Mark kind={fits ? 'agrees' : 'differs'} /> {fits ? 'fits' : 'does not fit'}
          </>
        )}
      </td>
    </tr>
  );
}

/** `+22° … +30°`, or one angle. */
function rangeText([from_rad, to_rad]: readonly [number, number]): string {
  const text = (angle_rad: number): string =>
    typeset(`${Number(degrees(angle_rad).toFixed(1))}°`.replace('-0°', '0°'));
  if (Math.PI * 0.99 < to_rad - from_rad) return 'anywhere';
  return Math.abs(to_rad - from_rad) < 1e-6
    ? text(from_rad)
    : `${text(from_rad)} … ${text(to_rad)}`;
}
