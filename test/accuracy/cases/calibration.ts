// Calibration readings, level at the seat and what a delay error costs, held against weightings, tables and plain physics.
import { calibrationTargets } from '../../../core/parts/levels/calibration.ts';
import { seatDelaysPart } from '../../../core/parts/seatDelays.ts';
import type { Arrival, CrossoverFigures, SeatFigures } from '../../../core/setup.ts';
import { trace } from '../../../core/signal/traced.ts';
import { loudRoom } from '../../support/loudRoom.ts';
import { EMPTY_ROOM } from '../../support/rooms.ts';
import { crossover, subRoom, subRoomWith, wires } from '../../support/wiredRooms.ts';
import { worked } from '../../support/worked.ts';
import type { Comparison } from '../comparison.ts';

/** Mains and LFE wired to one subwoofer, 85 dBC. */
function readings(): ReadonlyMap<string, number> {
  const room = {
    ...subRoom({
      wiring: wires(
        'desk.main_left -> sub.in_left',
        'desk.lfe -> sub.in_lfe',
        'sub.out_left -> left.in',
      ),
    }),
    targets: {
      ...EMPTY_ROOM.targets,
      referenceLevel: { level_db: 85, weighting: 'C' as const },
    },
  };
  const targets = calibrationTargets(room, trace(room).paths);
  return new Map(targets.map(({ kind, reading_db }) => [kind, reading_db]));
}

/** What the worst of two seats loses that differ by a time: right at the first, at the given crossover. */
function loss_db(crossover_hz: number, apart_s: number): number {
  const base = worked(subRoomWith({ crossover: crossover(80) })).crossovers[0];
  if (!base?.current) return Number.NaN;
  const current = {
    ...base.current,
    filter: { ...base.current.filter, frequency_hz: crossover_hz },
  };
  const { aligned: _, ...rest } = base;
  const figures: CrossoverFigures = { ...rest, current };
  const arrival = (source: string, arrival_s: number): Arrival => ({
    source,
    distance_m: 1,
    flight_s: 0,
    pathLatency_s: 0,
    pathDelay_s: 0,
    arrival_s,
    early_s: 0,
    neededDelay_s: 0,
    adviceIndex: null,
  });
  const seat = (id: string, sub_s: number): SeatFigures => ({
    id,
    arrivals: [arrival('left', 0), arrival('right', 0), arrival('sub', sub_s)],
    angles: [],
  });
  const [found] = seatDelaysPart([seat('a', 0), seat('b', apart_s)], [figures], 'a');
  return found?.choices.find((one) => one.for === 'reference')?.worstLoss_db ?? Number.NaN;
}

export const calibrationCases: readonly Comparison[] = [
  {
    computation: 'readings of calibration noise, reference 85 dBC',
    source:
      'IEC 61672-1 C: −0.02 dB for 500 Hz–2 kHz, −1.07 dB for 40–80 Hz pink; LFE +10 dB: ITU-R BS.775-3 Annex 7',
    unit: 'dBC',
    tolerance: 0.011,
    because: 'two decimals of each weighting',
    count: 3,
    pairs: () => {
      const read = readings();
      return [
        { what: 'main', actual: read.get('main') ?? Number.NaN, expected: 85 },
        { what: 'bass of a channel', actual: read.get('bass') ?? Number.NaN, expected: 83.95 },
        { what: 'LFE', actual: read.get('lfe') ?? Number.NaN, expected: 93.95 },
      ];
    },
  },
  {
    computation: 'peak level at the seat and surplus over the reference',
    source:
      'worked by hand: 110 dB at 1 m, 20 lg 2 at 2 m, a sine’s peak 3.01 dB above its RMS value',
    unit: 'dB',
    tolerance: 0.001,
    because: 'four decimals',
    count: 2,
    pairs: () => {
      const { levels } = worked(loudRoom(79));
      const at1k = levels.reach?.[0]?.bands.find(({ frequency_hz }) => frequency_hz === 1000);
      return [
        { what: '110 dB at 2 m', actual: at1k?.driver_db ?? Number.NaN, expected: 103.9794 },
        {
          what: 'noise at −20 dBFS over 79 dBC',
          actual: levels.attenuation?.[0]?.surplus_db ?? Number.NaN,
          expected: 1.9691,
        },
      ];
    },
  },
  {
    computation: 'what a delay error costs at another seat',
    source: 'worked by hand: 20 lg|cos(π f τ)| for equal levels (LR4)',
    unit: 'dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 5,
    pairs: () =>
      (
        [
          [60, 3, -1.47],
          [80, 1, -0.28],
          [80, 2, -1.15],
          [100, 2, -1.84],
          [120, 3, -7.42],
        ] as const
      ).map(([crossover_hz, apart_ms, expected]) => ({
        what: `${crossover_hz} Hz, ${apart_ms} ms`,
        actual: loss_db(crossover_hz, apart_ms / 1000),
        expected,
      })),
  },
];
