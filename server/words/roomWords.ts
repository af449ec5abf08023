// The room's own figures in words: volume, modes, the frequency above which modes blur.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import type { Explanation } from './explanation.ts';

/** "84.0 m³ · 104 modes · Schroeder 142 Hz", as far as it is known; null where nothing is. */
export function roomLabel({ space }: Setup, show: Show): readonly string[] {
  if (space === null) return [];
  const { volume_m3, modes, schroeder_hz } = space;
  return [
    ...(volume_m3 === null ? [] : [show.volume(volume_m3)]),
    ...(modes === null ? [] : [`${modes.length} modes`]),
    ...(schroeder_hz === null ? [] : [`Schroeder ${show.frequency(schroeder_hz)}`]),
  ];
}

export function explainRoom(setup: Setup, show: Show): Explanation | null {
  const { space } = setup;
  if (space === null) return null;
  const { volume_m3, floorArea_m2, decayTime, schroeder_hz, modes } = space;
  const lines = [`floor ${show.area(floorArea_m2)}`];
  if (volume_m3 !== null) lines.push(`volume ${show.volume(volume_m3)}`);
  if (decayTime !== null) {
    const from = decayTime.from === 'measured' ? 'measured' : 'from the surfaces';
    lines.push(`decay time ${show.decayTime(decayTime.decayTime_s)}, ${from}`);
  }
  if (schroeder_hz !== null && volume_m3 !== null && decayTime !== null)
    lines.push(
      `Schroeder frequency 2000 √(T/V) = 2000 √(${show.decayTime(decayTime.decayTime_s)} / ${show.volume(volume_m3)}) = **${show.frequency(schroeder_hz)}**: below it single modes are heard`,
    );
  if (modes !== null) lines.push(modesLine(modes, show));
  if (space.bonello !== null)
    lines.push(
      space.bonello.risesThroughout
        ? 'no one-third-octave band holds fewer modes than the one below it'
        : 'some one-third-octave bands hold fewer modes than the one below',
    );
  const nearest = space.proportions?.nearestNamed;
  if (nearest)
    lines.push(`nearest named proportion ${nearest.name}, ${show.share(nearest.off)} off`);
  if (space.nominalDecayTime_s !== null)
    lines.push(
      `nominal decay time for this volume ${show.decayTime(space.nominalDecayTime_s)} (EBU Tech 3276)`,
    );
  return {
    title: 'Room',
    lines,
    source: 'Kuttruff, Room Acoustics (modes of a rectangular room; Schroeder frequency)',
  };
}

type Modes = NonNullable<NonNullable<Setup['space']>['modes']>;

function modesLine(modes: Modes, show: Show): string {
  const first = modes
    .slice(0, 4)
    .map(({ frequency_hz, order }) => `${show.frequency(frequency_hz)} (${order.join(' ')})`)
    .join(', ');
  const axialCount = modes.filter(({ kind }) => kind === 'axial').length;
  return `${modes.length} modes to 200 Hz, ${axialCount} of them axial${first === '' ? '' : `; lowest ${first}`}`;
}
