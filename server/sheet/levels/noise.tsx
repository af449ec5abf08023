// Noise of the electronics: what each point of the gain table comes to at the seat, all of it beside the room's own, and trims that lower it.

import type { VNode } from 'preact';
import type { GainChain, GainPoint } from '../../../core/levelFigures.ts';
import type { NoiseTrim, SeatNoise, TrimPlace } from '../../../core/noiseFigures.ts';
import { type Background, backgroundOf } from '../../../core/parts/levels/background.ts';
import type { Setup } from '../../../core/setup.ts';
import type { View } from '../view.ts';
import { listed, MISSING, typeset } from '../words.ts';

/** A point's noise as this way's loudspeaker brings it to the seat. */
export function noiseOf({ levels }: Setup, { target, set }: GainChain, point: GainPoint): string {
  const found = (levels.noise ?? [])
    .find((one) => one.set === set)
    ?.sources.find((one) => one.target === target && one.at === point.at);
  // What lies below is nothing that anyone hears.
  if (found !== undefined)
    return found.level_dba < LEAST_DBA
      ? typeset(`below ${LEAST_DBA} dBA`)
      : dbaText(found.level_dba);
  return point.kind === 'input' || point.level_dbu === null ? '' : MISSING;
}

const LEAST_DBA = -40;

const FROM: Readonly<Record<Background['from'], string>> = {
  level: 'as recorded',
  nr: 'NR + 5, common practice',
  nc: 'NC + 7, common practice',
  asked: 'NR 15, as nothing is recorded',
};

export function NoiseNotes({ setup, show }: View): VNode | null {
  const noises = setup.levels.noise ?? [];
  if (noises.length === 0) return null;
  const background = backgroundOf(setup);
  return (
    <>
      <p>
        Noise is the A-weighted noise of an output or loudspeaker with no signal, through the gains
        after it, in the free field; a device’s own levels do not turn its noise down. Background:{' '}
        {dbaText(background.level_dba)} ({FROM[background.from]}).
      </p>
      <ul>
        {noises.map((noise) => (
          <li key={`noise ${noise.set ?? ''}`}>{sumText(noise, background)}</li>
        ))}
        {(setup.levels.noiseTrims ?? []).map((trim) => (
          <li key={`trim ${trim.target} ${trim.set ?? ''}`}>{trimText(trim, show)}</li>
        ))}
      </ul>
    </>
  );
}

function sumText({ set, level_dba, missing }: SeatNoise, background: Background): string {
  const below_db = background.level_dba - level_dba;
  const where = below_db < 0 ? 'above' : 'below';
  const all = `All noise at the seat${set === null ? '' : `, ${set}`}: ${dbaText(level_dba)}, ${Math.abs(below_db).toFixed(1)} dB ${where} the background`;
  return missing.length === 0
    ? all
    : `${all}; at least, as the noise of ${listed(missing)} is not recorded`;
}

function trimText(
  { target, set, late, early, by_db, saves_db }: NoiseTrim,
  show: View['show'],
): string {
  // What the monitor control raises, it raises for all that sounds with it.
  const alike = early === null ? ' (with all of the set alike)' : '';
  const raised = early === null ? 'the monitor control' : placeText(early);
  return `${target}${set === null ? '' : `, ${set}`}: ${placeText(late)} ${show.level(by_db)} lower and ${raised} as much higher${alike} leaves level and clip points, and takes ${show.level(saves_db)} from its noise`;
}

function placeText({ device, control }: TrimPlace): string {
  return `${control} of ${device}`;
}

function dbaText(level_dba: number): string {
  return typeset(`${level_dba.toFixed(1)} dBA`);
}
