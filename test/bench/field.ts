// The low end's benchmarks: a whole field cold and warm, a source under the hand, a pressure map, rooms by finite elements, and
// the same sum over a box's modes in numpy as the peer.

import { spawnSync } from 'node:child_process';
import { prepareBoxField } from '../../core/acoustics/field/boxField.ts';
import { pressureMap } from '../../core/acoustics/field/pressureMap.ts';
import { preparePrismField } from '../../core/elements/prismField.ts';
import { roomModes } from '../../core/elements/roomModes.ts';
import { createFieldWork } from '../../core/parts/field.ts';
import type { Setup } from '../../core/setup.ts';
import { geometrySetup } from '../support/findingsOf.ts';
import { box, point, seat, spaceWith, speaker, stereoRoom, subwoofer } from '../support/rooms.ts';
import type { Distribution, Row, Table } from './statistics.ts';

const AIR = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
const SOFT = { real: 0.03, imaginary: 0 };
const BOX = [
  { length_m: 4.62, walls: [SOFT, SOFT] as const },
  { length_m: 6.18, walls: [SOFT, SOFT] as const },
  { length_m: 2.94, walls: [SOFT, SOFT] as const },
] as const;
const SEATS = [
  [2.31, 2.44, 1.22],
  [2.31, 3.9, 1.22],
  [1.4, 3.9, 1.22],
] as const;
/** 15 to 300 Hz. */
const GRID_HZ = Array.from({ length: 180 }, (_, i) => 15 * 20 ** (i / 179));
const L_SHAPE = [
  [0, 0],
  [6.4, 0],
  [6.4, 3.1],
  [4.1, 3.1],
  [4.1, 5.2],
  [0, 5.2],
].map(([x_m = 0, y_m = 0]) => ({ x_m, y_m }));
const RECTANGLE = [
  [0, 0],
  [5.6, 0],
  [5.6, 4.3],
  [0, 4.3],
].map(([x_m = 0, y_m = 0]) => ({ x_m, y_m }));

function timed(act: () => unknown): number {
  const start_ms = performance.now();
  act();
  return performance.now() - start_ms;
}

function times(count: number, act: (index: number) => unknown): readonly number[] {
  for (let index = 0; index < Math.min(count, 20); index++) act(index); // warm
  return Array.from({ length: count }, (_, index) => timed(() => act(index)));
}

/** Five sources and three seats, 180 frequencies. */
function fiveSources(sub_x_m: number): Setup {
  const three = SEATS.map(([x_m, y_m, z_m], i) =>
    seat(`seat_${i + 1}`, point(x_m, y_m, z_m), { isReference: i === 0 }),
  );
  return geometrySetup(
    stereoRoom({
      space: spaceWith({ shape: box(4.62, 6.18, 2.94) }),
      seats: three,
      speakers: [
        speaker('left', 'L', point(1.26, 0.62, 1.22)),
        speaker('right', 'R', point(3.36, 0.62, 1.22)),
        speaker('centre', 'C', point(2.31, 0.5, 1.22)),
      ],
      subwoofers: [
        subwoofer('sub_1', point(sub_x_m, 0.62, 0.25)),
        subwoofer('sub_2', point(4.2, 5.6, 0.25)),
      ],
    }),
  );
}

function wholeField(): readonly Row[] {
  const bare = { envelope: false };
  const whole = { envelope: true };
  createFieldWork()(fiveSources(1), whole); // the machine's own warming up
  const cold_ms = Array.from({ length: 9 }, (_, i) =>
    timed(() => createFieldWork()(fiveSources(1 + i / 100), bare)),
  );
  const envelope_ms = Array.from({ length: 5 }, (_, i) =>
    timed(() => createFieldWork()(fiveSources(1 + i / 100), whole)),
  );
  const work = createFieldWork();
  work(fiveSources(1), bare);
  const dragged = Array.from({ length: 60 }, (_, i) => fiveSources(1 + i / 100));
  const dragged_ms = dragged.map((setup) => timed(() => work(setup, bare)));
  return [
    {
      name: '  all figures, 5 sources, 3 seats, 180 f, cold',
      times_ms: cold_ms,
      bound: 'median < 100 ms',
      isKept: ({ median_ms }) => median_ms < 100,
    },
    {
      name: '  the same with its envelope, cold',
      times_ms: envelope_ms,
      bound: 'median < 600 ms',
      isKept: ({ median_ms }) => median_ms < 600,
    },
    {
      name: '  all figures, one source moved, warm',
      times_ms: dragged_ms,
      bound: 'median < 4 ms',
      isKept: ({ median_ms }) => median_ms < 4,
    },
  ];
}

/** At its height, over the plan. */
function movedSource(): Row {
  const listening = prepareBoxField(() => BOX, AIR, GRID_HZ).listenAt(SEATS);
  return {
    name: '  one moved source, 3 seats, 180 f',
    times_ms: times(200, (i) => listening([1 + (i % 100) / 100, 0.62, 0.25])),
    bound: 'median < 4 ms',
    isKept: ({ median_ms }) => median_ms < 4,
  };
}

function map(): Row {
  const along = (length_m: number, count: number) =>
    Array.from({ length: count }, (_, i) => ((i + 0.5) * length_m) / count);
  const [x_m, y_m] = [along(4.62, 60), along(6.18, 80)];
  return {
    name: '  pressure map, 60 × 80, one frequency',
    times_ms: times(100, (i) => pressureMap(BOX, AIR, 25 + i, [1.75, 0.62, 0.25], 1.22, x_m, y_m)),
    bound: 'median < 8 ms',
    isKept: ({ median_ms }) => median_ms < 8,
  };
}

/** A scrub of the frequency over an L-shaped room: its modes are found before. */
function elementsMap(): Row {
  const walls = L_SHAPE.map(() => SOFT);
  const surfaces = () => ({ walls, floor: SOFT, ceiling: SOFT });
  const places = Array.from({ length: 60 * 80 }, (_, i) => ({
    x_m: 0.05 + (4 * (i % 60)) / 60,
    y_m: 0.05 + (3 * Math.floor(i / 60)) / 80,
    z_m: 1.22,
  }));
  const over = preparePrismField(L_SHAPE, 2.75, surfaces, AIR, [200]).over(places);
  const source = { x_m: 5.6, y_m: 0.6, z_m: 0.3 };
  return {
    name: '  the same over an L shape, by finite elements',
    times_ms: times(60, (i) => over(source, 25 + i)),
    bound: 'median < 16 ms (a frame)',
    isKept: ({ median_ms }) => median_ms < 16,
  };
}

function elements(): readonly Row[] {
  const level = { height_m: 2.75, slopeX: 0, slopeY: 0 };
  const slope = { height_m: 2.5, slopeX: 0.1786, slopeY: 0 };
  return [
    {
      name: '  modes of an L shape to 150 Hz',
      times_ms: times(5, () => roomModes({ plan: L_SHAPE, ceiling: level }, 343, 150)),
      bound: 'median < 1500 ms',
      isKept: ({ median_ms }) => median_ms < 1500,
    },
    {
      name: '  modes under a sloped ceiling to 150 Hz',
      times_ms: times(3, () => roomModes({ plan: RECTANGLE, ceiling: slope }, 343, 150)),
      bound: 'median < 5000 ms',
      isKept: ({ median_ms }) => median_ms < 5000,
    },
  ];
}

/**
 * Three sums over a box's modes below 390 Hz at three seats and 180 frequencies, vectorised as well as numpy allows: as a textbook
 * has it, from nothing (rigid walls, diagonal damping); ours, exact complex modes at every frequency with all but the source made
 * ready (without the remainder that ours adds); and the textbook's with all but the source ready, the least that can be asked.
 */
const PEER = `
import time, sys
try:
    import numpy as np
except ImportError:
    sys.exit(3)
L = np.array([4.62, 6.18, 2.94]); c = 343.0; rho = 1.204; beta = 0.03
f = 15 * 20 ** (np.arange(180) / 179); k = 2 * np.pi * f / c; V = L.prod()
top = [int(2 * 390 * l / c) for l in L]
n = np.array(np.meshgrid(*[np.arange(t + 1) for t in top], indexing='ij')).reshape(3, -1).T
kn = np.sqrt(((n * np.pi / L) ** 2).sum(1)); keep = kn * c / 2 / np.pi < 390
n = n[keep]; kn = kn[keep]; e = np.where(n == 0, 1, 2)
D = (e * 2 * beta / L).sum(1)
seats = np.array([[2.31, 2.44, 1.22], [2.31, 3.9, 1.22], [1.4, 3.9, 1.22]])
shape = lambda p: np.sqrt(e.prod(1)) * np.cos(n * np.pi * p / L).prod(1)
heard = np.array([shape(s) for s in seats])
def textbook(p):
    den = kn ** 2 - (k ** 2)[:, None] + 1j * k[:, None] * D
    return (1j * 2 * np.pi * f * rho / V)[:, None] * ((shape(p) / den) @ heard.T)
# exact modes of each axis: F(q) = 2a cos(sqrt(q) L) + (a^2 - q) sin(sqrt(q) L)/sqrt(q) = 0, a = jk beta, by Newton in steps
axes = []
for length, t in zip(L, top):
    m = np.arange(t + 1); a = 1j * k[:, None] * beta
    q = (m * np.pi / length) ** 2 + 1e-9 + 0j * a
    F = lambda q, a: 2 * a * np.cos(np.sqrt(q) * length) + (a * a - q) * np.sin(np.sqrt(q) * length) / np.sqrt(q)
    for step in range(1, 13):
        s = a * step / 12
        q = q + np.where(m == 0, 1, 2) / 12 * 2 * a / length
        for _ in range(6):
            h = 1e-6
            q = q - F(q, s) * h / (F(q + h, s) - F(q, s))
    r = np.sqrt(q); C = np.cos(r * length); S = np.sin(r * length) / r
    N = length / 2 + C * S / 2 + a * S * S + a * a * (length - C * S) / (2 * q)
    axes.append((q, r, a, N))
X = lambda i, x: np.cos(axes[i][1] * x) + axes[i][2] * np.sin(axes[i][1] * x) / axes[i][1]
inv = 1 / (axes[0][0][:, n[:, 0]] + axes[1][0][:, n[:, 1]] + axes[2][0][:, n[:, 2]] - (k ** 2)[:, None])
weighed = np.array([inv * X(0, s[0])[:, n[:, 0]] * X(1, s[1])[:, n[:, 1]] * X(2, s[2])[:, n[:, 2]] for s in seats])
def exact(p):
    x, y, z = [(X(i, p[i]) / axes[i][3]) for i in range(3)]
    w = x[:, n[:, 0]] * y[:, n[:, 1]] * z[:, n[:, 2]]
    return (1j * 2 * np.pi * f * rho) * np.einsum('sfm,fm->sf', weighed, w)
ready_inv = 1 / (kn ** 2 - (k ** 2)[:, None] + 1j * k[:, None] * D)
def ready(p):
    return (1j * 2 * np.pi * f * rho / V)[:, None] * ((shape(p) * ready_inv) @ heard.T)
for act in (textbook, exact, ready):
    t = []
    for i in range(60):
        s = time.perf_counter(); act(np.array([1 + i / 100, 0.62, 0.25])); t.append((time.perf_counter() - s) * 1000)
    print(' '.join('%.4f' % x for x in t[10:]))
# so that nobody need believe that it is the same sum
p = exact(np.array([1.0, 0.62, 0.25]))[0]
print(' '.join('%.9g' % v for v in np.abs(p)))
`;

export interface PeerTimes {
  readonly textbook_ms: readonly number[];
  readonly exact_ms: readonly number[];
  readonly ready_ms: readonly number[];
  /** |G| of the exact sum at the first seat, Pa·s/m³: to see that both sum the same. */
  readonly pressure: readonly number[];
}

/** null where there is no Python with numpy; Debian's is looked at first. */
export function peerTimes(): PeerTimes | null {
  for (const python of ['/usr/bin/python3', 'python3']) {
    const { status, stdout } = spawnSync(python, ['-c', PEER], {
      encoding: 'utf8',
      env: { ...process.env, OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1' },
    });
    if (status !== 0) continue;
    const [textbook_ms = [], exact_ms = [], ready_ms = [], pressure = []] = stdout
      .trim()
      .split('\n')
      .map((row) => row.split(' ').map(Number));
    return { textbook_ms, exact_ms, ready_ms, pressure };
  }
  return null;
}

export function tables(): readonly Table[] {
  return [{ title: "The room's low end", rows: benches(), notes: benchNotes() }];
}

/** In the order in which it is printed. */
function benches(): readonly Row[] {
  const moved = movedSource();
  const peer = peerTimes();
  const ours_ms = median(moved.times_ms);
  const faster = {
    bound: `slower than ours, ${ours_ms.toFixed(2)} ms`,
    isKept: ({ median_ms }: Distribution) => ours_ms < median_ms,
    isPeer: true,
  };
  const peers: readonly Row[] = peer
    ? [
        {
          name: '  numpy: a textbook modal sum, one source',
          times_ms: peer.textbook_ms,
          ...faster,
        },
        {
          name: '  numpy: exact modes, all but the source ready',
          times_ms: peer.exact_ms,
          ...faster,
        },
        {
          name: '  numpy: the textbook sum, all but the source ready',
          times_ms: peer.ready_ms,
          bound: 'neither exact nor whole',
          isKept: () => true,
          isPeer: true,
        },
      ]
    : [];
  return [...wholeField(), moved, ...peers, map(), elementsMap(), ...elements()];
}

/** How far the moved source is from what one core can do, and why the peer is missing where it is. */
function benchNotes(): readonly string[] {
  // A complex multiply-add is 8 operations; each pair of modes along x and y is one of them for itself and one a seat.
  const gigaflop = (8 * pairsTimesFrequencies() * (1 + SEATS.length)) / 1e9;
  const rate = coreRate_gflop_s();
  const least_ms = (gigaflop / rate) * 1000;
  const notes = [
    `  the moved source's sum over pairs of modes: ${(gigaflop * 1000).toFixed(2)} Mflop; this core does ${rate.toFixed(1)} Gflop/s in a plain loop here, so ${least_ms.toFixed(2)} ms at best; the rest is shapes at the source and the exact remainder`,
  ];
  return peerTimes() === null
    ? [...notes, '  no Python with numpy (Debian: python3-numpy): no peer in this run']
    : notes;
}

/** As the field cuts its bands: octaves, modes to 1.3 times the top of each, and five frequencies more for what lies above. */
function pairsTimesFrequencies(): number {
  const [x_m, y_m] = [4.62, 6.18];
  let total = 0;
  for (let to = GRID_HZ.length; 0 < to; ) {
    const top_hz = GRID_HZ[to - 1] ?? 0;
    const from = GRID_HZ.findIndex((f_hz) => top_hz / 2 < f_hz);
    const limit = (2 * Math.PI * 1.3 * top_hz) / AIR.speedOfSound_m_s;
    let pairs = 0;
    for (let l = 0; (l * Math.PI) / x_m <= limit; l++)
      pairs += Math.floor((Math.sqrt(limit ** 2 - ((l * Math.PI) / x_m) ** 2) * y_m) / Math.PI) + 1;
    total += pairs * (to - from + 5);
    to = from;
  }
  return total;
}

/** Complex multiply-adds in a plain loop over what fits the cache. */
function coreRate_gflop_s(): number {
  const n = 2048;
  const one = new Float64Array(2 * n).fill(0.5);
  const other = new Float64Array(2 * n).fill(0.25);
  let kept = 0;
  const rounds = 2000;
  const pass = () => {
    for (let round = 0; round < rounds; round++) {
      let re = 0;
      let im = 0;
      for (let i = 0; i < 2 * n; i += 2) {
        const a = one[i] as number;
        const b = one[i + 1] as number;
        const c = other[i] as number;
        const d = other[i + 1] as number;
        re += a * c - b * d;
        im += a * d + b * c;
      }
      kept += re + im;
    }
  };
  pass();
  const best_ms = Math.min(...Array.from({ length: 5 }, () => timed(pass)));
  return Number.isFinite(kept) ? (8 * n * rounds) / best_ms / 1e6 : 0;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
