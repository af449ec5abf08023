// The demo rooms' takes against the truth that they were made from: image sources and geometry that share no line with the analysis.

import { pairTakes } from '../../../core/measured/pairTakes.ts';
import type { VerificationFigures } from '../../../core/measured/verification.ts';
import { withField } from '../../../core/withField.ts';
import { demoTake, demoTakes } from '../../support/demoTakes.ts';
import { withMeasured } from '../../support/withMeasured.ts';
import { HERON } from '../../synthesis/heronTruth.ts';
import type { Triple } from '../../synthesis/imageRoom.ts';
import { MAGPIE } from '../../synthesis/magpieTruth.ts';
import { heardSpectrum } from '../../synthesis/measure.ts';
import {
  imageRoomOf,
  LATENCY_S,
  type RoomTruth,
  type SourceName,
  soundingOf,
} from '../../synthesis/roomTruth.ts';
import { decayOf_s, surveyedDecay_s } from '../../synthesis/survey.ts';
import { meanPower, placeOf } from '../../synthesis/takes.ts';
import type { Comparison, Pair } from '../comparison.ts';

const IMAGES = 'image sources with noise (Allen & Berkley 1979), test/synthesis';

interface Place {
  readonly room: string;
  readonly truth: RoomTruth;
  readonly take: string;
  readonly source: SourceName;
  readonly at: Triple;
}

const place = (
  room: 'heron' | 'magpie',
  take: string,
  source: SourceName,
  off_m: Triple = [0, 0, 0],
  seat = 'mix',
): Place => {
  const truth = room === 'heron' ? HERON : MAGPIE;
  return { room, truth, take, source, at: placeOf(truth, { seat, off_m }) };
};

const MAINS: readonly Place[] = [
  place('heron', 'left_mix', 'left'),
  place('heron', 'right_mix', 'right'),
  place('heron', 'left_beside', 'left', [-0.25, 0, 0]),
  place('heron', 'right_beside', 'right', [0.25, 0, 0]),
  place('magpie', 'left_mix', 'left'),
  place('magpie', 'right_mix', 'right'),
  place('magpie', 'right_beside', 'right', [0.25, 0, 0]),
];
const SUBS: readonly Place[] = [
  place('heron', 'sub_mix', 'sub'),
  place('magpie', 'sub_mix', 'sub'),
];
/** Where the room outweighs the subwoofer. */
const FAR_SUBS: readonly Place[] = [place('heron', 'sub_producer', 'sub', [0, 0, 0], 'producer')];
const OCTAVES_HZ = [250, 500, 1000, 2000] as const;
const WRITTEN_HZ = { heron: [63, 125, 250, 500, 1000, 2000], magpie: [63, 125, 250, 500, 1000] };

/** Flight at 331.3 √(T/273.15) m/s, latencies, and the delay that is really dialled in. */
function arrivalTruth_s({ truth, source, at }: Place): number {
  const [x, y, z] = truth.at[source];
  const away_m = Math.hypot(x - at[0], y - at[1], z - at[2]);
  const speed_m_s = 331.3 * Math.sqrt(truth.temperature_k / 273.15);
  return away_m / speed_m_s + LATENCY_S[source] + truth.delay_s[source];
}

function spectrumOf({ truth, source, at }: Place): Float64Array {
  return heardSpectrum(imageRoomOf(truth), [soundingOf(truth, source)], at);
}

function levelPairs(): readonly Pair[] {
  return ['heron', 'magpie'].flatMap((room) => {
    const offs = MAINS.filter((one) => one.room === room).map((one) => ({
      what: `${room} ${one.take}`,
      measured_db: demoTake(room, one.take).level?.level_db ?? Number.NaN,
      truth_db: 10 * Math.log10(meanPower(spectrumOf(one), 500, 2000)),
    }));
    const [first, ...others] = offs;
    if (first === undefined) return [];
    return others.map(({ what, measured_db, truth_db }) => ({
      what: `${what} re ${first.what}`,
      actual: measured_db - first.measured_db,
      expected: truth_db - first.truth_db,
    }));
  });
}

function decayPairs(): readonly Pair[] {
  return MAINS.flatMap((one) => {
    const spectrum = spectrumOf(one);
    return OCTAVES_HZ.map((band_hz) => {
      const found = demoTake(one.room, one.take).octaves.find(
        ({ frequency_hz }) => frequency_hz === band_hz,
      );
      return {
        what: `${one.room} ${one.take} ${band_hz} Hz`,
        actual: found?.t20_s ?? Number.NaN,
        expected: decayOf_s(spectrum, band_hz),
      };
    });
  });
}

function writtenPairs(): readonly Pair[] {
  return (['heron', 'magpie'] as const).flatMap((room) => {
    const truth = room === 'heron' ? HERON : MAGPIE;
    const { decayTime_s } = demoTakes(room).setup.room.space;
    const surveyed = surveyedDecay_s(truth, WRITTEN_HZ[room]);
    return WRITTEN_HZ[room].map((band_hz) => ({
      what: `${room} ${band_hz} Hz`,
      actual: decayTime_s?.value[decayTime_s.frequency_hz.indexOf(band_hz)] ?? Number.NaN,
      expected: surveyed.get(band_hz) ?? Number.NaN,
    }));
  });
}

/** Latencies and delays as the files have them: magpie's 3 ms on the way to the right one are in its file alone. */
const FILED_DELAY_S = {
  heron: { left: 0, right: 0 },
  magpie: { left: 0.0002, right: 0.003 },
} as const;

/** As the room file has it: places by its own lines, air of the session at 331.3 √(T/273.15) m/s. */
function plannedPairs(): readonly Pair[] {
  return MAINS.map(({ room, take, source, at }) => {
    const { setup } = demoTakes(room);
    const found = demoVerification(room)?.takes.find((one) => one.take === take);
    const speaker = setup.room.speakers.find(({ id }) => id === source)?.at;
    const seat = setup.room.seats.find(({ id }) => id === 'mix')?.at;
    const mix = (room === 'heron' ? HERON : MAGPIE).seats.mix ?? [0, 0, 0];
    // Off the seat by what the takes beside it are.
    const off_m = Math.round((at[0] - mix[0]) * 100) / 100;
    const away_m =
      speaker && seat
        ? Math.hypot(speaker.x_m - seat.x_m - off_m, speaker.y_m - seat.y_m, speaker.z_m - seat.z_m)
        : Number.NaN;
    const delay_s = FILED_DELAY_S[room as 'heron' | 'magpie'][source as 'left' | 'right'];
    return {
      what: `${room} ${take}`,
      actual: 1000 * (found?.arrival?.planned_s ?? Number.NaN),
      expected:
        1000 * (away_m / (331.3 * Math.sqrt(295.15 / 273.15)) + LATENCY_S[source] + delay_s),
    };
  });
}

/** Right less left at the mix seat, arrival and level. */
function pairPairs(kind: 'arrival' | 'level'): readonly Pair[] {
  return (['heron', 'magpie'] as const).map((room) => {
    const { setup, measured } = demoTakes(room);
    const found = pairTakes({ ...setup, measured }).find(({ seat }) => seat === 'mix');
    const [left, right] = (['left', 'right'] as const).map((source) =>
      place(room, `${source}_mix`, source),
    );
    if (left === undefined || right === undefined) throw new RangeError('no pair');
    const [lower_db, upper_db] = [left, right].map(
      (one) => 10 * Math.log10(meanPower(spectrumOf(one), 500, 2000)),
    );
    return kind === 'arrival'
      ? {
          what: room,
          actual: 1000 * (found?.arrival_s ?? Number.NaN),
          expected: 1000 * (arrivalTruth_s(right) - arrivalTruth_s(left)),
        }
      : {
          what: room,
          actual: found?.level_db ?? Number.NaN,
          expected: (upper_db ?? 0) - (lower_db ?? 0),
        };
  });
}

const verified = new Map<string, VerificationFigures | null>();

/** Worked out once a run: the field is dear. */
export function demoVerification(room: string): VerificationFigures | null {
  const found = verified.get(room);
  if (found !== undefined) return found;
  const { setup, measured } = demoTakes(room);
  const { verification = null } = withMeasured(withField(setup, { today: null }), measured);
  verified.set(room, verification);
  return verification;
}

function subArrivalPairs(places: readonly Place[]): readonly Pair[] {
  return places.map((one) => {
    const found = demoVerification(one.room)?.takes.find(({ take }) => take === one.take);
    return {
      what: `${one.room} ${one.take}`,
      actual: 1000 * (found?.arrival?.measured_s ?? Number.NaN),
      expected: 1000 * arrivalTruth_s(one),
    };
  });
}

export const demoTakeCases: readonly Comparison[] = [
  {
    computation: 'takes: arrival of a full-range source',
    source: `${IMAGES}: distance, air and latencies of the truth, by hand`,
    unit: 'ms',
    tolerance: 0.02,
    because: 'the accuracy that is promised for a full-range arrival',
    count: 7,
    pairs: () =>
      MAINS.map((one) => ({
        what: `${one.room} ${one.take}`,
        actual: 1000 * (demoTake(one.room, one.take).arrival_s ?? Number.NaN),
        expected: 1000 * arrivalTruth_s(one),
      })),
  },
  {
    computation: 'takes: arrival of a subwoofer at the reference seat',
    source: `${IMAGES}: distance, air, latency and delay of the truth, by hand`,
    unit: 'ms',
    tolerance: 0.5,
    because: 'the accuracy that is promised for a bass source’s arrival',
    count: 2,
    pairs: () => subArrivalPairs(SUBS),
  },
  {
    computation: 'takes: arrival of a subwoofer at a seat behind',
    source: `${IMAGES}: distance, air, latency and delay of the truth, by hand`,
    unit: 'ms',
    tolerance: 1,
    because:
      'told in docs/measuring.md: the plan knows modes only so well, and 3.3 m away they outweigh the sound itself',
    count: 1,
    pairs: () => subArrivalPairs(FAR_SUBS),
  },
  {
    computation: 'takes: levels against each other',
    source: `${IMAGES}: power of the noiseless spectra, 500 Hz to 2 kHz`,
    unit: 'dB',
    tolerance: 0.1,
    because: 'the accuracy that is promised for a level',
    count: 5,
    pairs: levelPairs,
  },
  {
    computation: 'takes: T20 by octave',
    source: `${IMAGES}: noiseless responses, backward integration and line (ISO 3382-2) by another program`,
    unit: 's',
    tolerance: 0.05,
    because: 'the accuracy that is promised where bandwidth × time exceeds 16; filters differ',
    relative: true,
    count: 28,
    pairs: decayPairs,
  },
  {
    computation: 'takes: decay times that the demo files state',
    source: `${IMAGES}: mean T20 of mains and seats by another program, before any analysis of ours`,
    unit: 's',
    tolerance: 0.0051,
    because: 'files are written to 10 ms',
    count: 11,
    pairs: writtenPairs,
  },
  {
    computation: 'takes: arrivals as the plan has them',
    source:
      'the room files’ places and delays, 331.3 √(T/273.15) m/s, data sheets’ latencies; by hand',
    unit: 'ms',
    tolerance: 0.015,
    because: 'the plan counts humidity: 0.2 % of 6 ms of flight',
    count: 7,
    pairs: plannedPairs,
  },
  {
    computation: 'takes: right less left, arrival',
    source: `${IMAGES}: distances and delays of the truth, by hand`,
    unit: 'ms',
    tolerance: 0.02,
    because: 'the accuracy that is promised for a full-range arrival',
    count: 2,
    pairs: () => pairPairs('arrival'),
  },
  {
    computation: 'takes: right less left, level',
    source: `${IMAGES}: power of the noiseless spectra, 500 Hz to 2 kHz`,
    unit: 'dB',
    tolerance: 0.1,
    because: 'the accuracy that is promised for a level',
    count: 2,
    pairs: () => pairPairs('level'),
  },
];
