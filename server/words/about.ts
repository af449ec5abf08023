// Everything computed about one place of a room, as explanations: what a hover shows below the key's own meaning.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { isAtOrBelow, type Path } from '../../schema/model/path.ts';
import { samePath } from '../names.ts';
import { explainAir } from './airWords.ts';
import { explainAngle } from './angleWords.ts';
import { arrivalOf, explainArrival } from './arrivalWords.ts';
import { explainConnection } from './connectionWords.ts';
import { explainCrossover } from './crossoverWords.ts';
import type { Explanation } from './explanation.ts';
import { explainSeat, explainSource } from './fieldWords.ts';
import { explainTake } from './measuredWords.ts';
import { explainCalibrator, explainNoiseRecording } from './noiseRecordingWords.ts';
import { explainNoise } from './noiseWords.ts';
import { explainBoundaries } from './placeWords.ts';
import { explainRecord } from './recordWords.ts';
import { explainRoom } from './roomWords.ts';
import { explainSetting } from './settingWords.ts';
import { explainCircuit, explainLayout, explainReferenceLevel } from './targetWords.ts';
import { explainVerdict } from './verdictWords.ts';

export function explanationsAbout(setup: Setup, path: Path, show: Show): readonly Explanation[] {
  const [section, id, part] = path;
  switch (section) {
    case 'space':
      if (id === 'air') return [explainAir(setup, show)];
      if (id === 'background_noise') return present(explainNoise(setup, show));
      return present(explainRoom(setup, show));
    case 'seats':
      return id === undefined ? [] : aboutSeat(setup, id, show);
    case 'speakers':
    case 'subwoofers':
      return id === undefined || part === 'gear' ? [] : aboutSpeaker(setup, id, show);
    case 'settings':
      return aboutSettings(setup, path, show);
    case 'wiring':
      return id === undefined ? [] : present(explainConnection(setup, Number(id), show));
    case 'circuits':
      return id === undefined ? [] : present(explainCircuit(setup, id, show));
    case 'sessions':
      return aboutSession(setup, path, show);
    case 'listening':
    case 'signed_off':
      return path.length === 1 || part === 'setup' || id === 'setup'
        ? present(explainRecord(setup, path))
        : [];
    case 'targets':
      if (id === 'layout') return explainLayout(setup, show);
      return id === 'reference_level' ? [explainReferenceLevel(setup, show)] : [];
    default:
      return [];
  }
}

function aboutSeat(setup: Setup, seat: string, show: Show): readonly Explanation[] {
  const figures = setup.seats.find(({ id }) => id === seat);
  if (!figures || figures.arrivals.length === 0) return [];
  return [
    ...explainSeat(setup, seat, show),
    {
      title: 'Arrivals at this seat',
      lines: figures.arrivals.map(
        ({ source, distance_m, flight_s, arrival_s, early_s }) =>
          `\`${source}\` ${show.length(distance_m)}, ${show.time(flight_s)} of flight${arrival_s === null ? '' : `, arrives after ${show.time(arrival_s)}`}${early_s === null || early_s === 0 ? '' : `, ${show.time(early_s)} early`}`,
      ),
      source: `speed of sound: ${setup.air.source}`,
    },
  ];
}

/** At the reference seat; boundaries too. */
function aboutSpeaker(setup: Setup, id: string, show: Show): readonly Explanation[] {
  const seat = setup.referenceSeat;
  const arrival = arrivalOf(setup, seat, id);
  return [
    ...(seat === null || arrival === null ? [] : [explainArrival(setup, seat, arrival, show)]),
    ...(seat === null ? [] : present(explainAngle(setup, seat, id, show))),
    ...explainSource(setup, id, show),
    ...present(explainBoundaries(setup, id, show)),
  ];
}

/** On a take's name or one of its keys; a seat or a loudspeaker that it names has a hover of its own. */
function aboutSession(setup: Setup, path: Path, show: Show): readonly Explanation[] {
  const [, session, part, take, key] = path;
  if (session !== undefined && (part === undefined || part === 'setup'))
    return [
      ...present(explainRecord(setup, path)),
      ...(part === undefined ? present(explainVerdict(setup, session)) : []),
    ];
  if (session === undefined) return [];
  if (part === 'calibrator')
    return take === undefined || take === 'file' ? explainCalibrator(setup, session, show) : [];
  if (part === 'noise' && take !== undefined)
    return key === undefined || key === 'file'
      ? explainNoiseRecording(setup, session, take, show)
      : [];
  if (part !== 'takes' || take === undefined) return [];
  return key === undefined || key === 'file' ? explainTake(setup, session, take, show) : [];
}

function aboutSettings(setup: Setup, path: Path, show: Show): readonly Explanation[] {
  // On the section or a device: only what is not as it should be, so that the hover stays short.
  const broad = path.length <= 2;
  const crossovers = setup.crossovers.filter(
    (figures) => !broad && (isAtOrBelow(path, figures.path) || isAtOrBelow(figures.path, path)),
  );
  const advice = setup.advice.filter(
    (one) =>
      (isAtOrBelow(path, one.path) || isAtOrBelow(one.path, path)) &&
      !crossovers.some((figures) => samePath(figures.path, one.path)) &&
      (!broad || one.agrees !== true),
  );
  return [
    ...crossovers.map((figures) => explainCrossover(figures, show)),
    ...advice.map(explainSetting),
  ];
}

function present(explanation: Explanation | null): readonly Explanation[] {
  return explanation === null ? [] : [explanation];
}
