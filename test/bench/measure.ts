// A 20 s sweep at 48 kHz deconvolved and fully analysed, beside scipy doing the same on the same recording.

import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { convolved } from '../../core/measure/fourier.ts';
import { recordedSweep } from '../../core/measure/recording.ts';
import { sweepTrain } from '../../core/measure/sweep.ts';
import { takeFigures } from '../../core/measure/take.ts';
import { hiss, impulseAt, OPTIONS, RATE_HZ, sum, tail } from '../measure/takes.ts';
import { NO_PEER } from './peer.ts';
import { distributionOf, type Table } from './statistics.ts';

const ROUND_COUNT = 9;
const DESIGN = {
  sampleRate_hz: RATE_HZ,
  from_hz: 10,
  to_hz: 22000,
  length_s: 20,
  level_dbfs: -20,
  fadeIn_s: 0.1,
  fadeOut_s: 0.02,
  lead_s: 1,
  gap_s: 2,
  repeatCount: 1,
};

const played = sweepTrain(DESIGN);
const room = sum(impulseAt(0.00725, 0.5), tail(1, 0.3, 0.01, 0.011));
const noise = hiss(5, played.length);
const recording = convolved(played, room)
  .slice(0, played.length)
  .map((v, i) => v + 1e-5 * (noise[i] as number));

const folder = mkdtempSync(join(tmpdir(), 'bench-'));
writeFileSync(join(folder, 'recording.f64'), new Uint8Array(recording.buffer));

// The same work by the ordinary means of scipy: the sweep, deconvolution, response in 1/6 octaves, minimum phase, decay in
// octaves and third octaves (filters reversed in time, truncation, backward integration, lines), harmonics.
const SCRIPT = `
import json, time, numpy as np
from scipy import signal, fft
y = np.fromfile('recording.f64'); fs = 48000; f1, f2, T, lead, gap = 10., 22000., 20., 48000, 96000
def once():
    t0, c0 = time.perf_counter(), time.process_time()
    L = T / np.log(f2 / f1); t = np.arange(int(T * fs)) / fs
    x = np.concatenate([np.zeros(lead), 0.1 * np.sin(2 * np.pi * f1 * L * np.expm1(t / L))])
    n = fft.next_fast_len(len(y) + 24000, real=True)
    X, Y = fft.rfft(x, n), fft.rfft(y, n); P = np.abs(X) ** 2
    f = np.arange(n // 2 + 1) * fs / n
    H = np.where((f >= f1) & (f <= f2), Y * X.conj() / (P + 1e-8 * P.max()), 0)
    h = fft.irfft(H, n); k = int(np.argmax(np.abs(h)))
    t1 = time.process_time()
    m = 1 << 17
    w = np.roll(h, 960 - k)[:24960] * np.concatenate([np.ones(18960), 0.5 + 0.5 * np.cos(np.pi * np.arange(6000) / 6000)])
    S = fft.rfft(w, m); p = np.abs(S) ** 2; ff = np.arange(m // 2 + 1) * fs / m
    g = 20 * 2 ** (np.arange(239) / 24); c = np.cumsum(p)
    lo = np.searchsorted(ff, g * 2 ** (-1 / 12)); hi = np.maximum(lo + 1, np.searchsorted(ff, g * 2 ** (1 / 12)))
    level = 10 * np.log10((c[hi - 1] - c[lo - 1]) / (hi - lo))
    cep = fft.irfft(0.5 * np.log(np.maximum(p, p.max() * 1e-20))); cep[1:m // 2] *= 2; cep[m // 2 + 1:] = 0
    phase = fft.rfft(cep).imag
    d = np.roll(h, -k)[:96000]; out = []
    G = 10 ** 0.3
    for b, ks in ((1, range(-5, 4)), (3, range(-16, 11))):
        for q in ks:
            fm = 1000 * G ** (q / b)
            sos = signal.butter(3, [fm * G ** (-0.5 / b), fm * G ** (0.5 / b)], 'bandpass', fs=fs, output='sos')
            e = signal.sosfilt(sos, d[::-1])[::-1] ** 2
            # Truncation by the Lundeby iteration.
            noise = e[-9600:].mean(); end = len(e); step = 480
            for i in range(5):
                s = 10 * np.log10(e[:len(e) // step * step].reshape(-1, step).mean(1) + 1e-300); nd = 10 * np.log10(noise)
                a = int(np.argmax(s)); z = a + int(np.argmax(s[a:] < nd + 7)); z = max(z, a + 3)
                fit = np.polyfit((np.arange(a, z) + 0.5) * step, s[a:z], 1)
                if fit[0] >= 0: break
                new = int(np.clip((nd - fit[1]) / fit[0], 10, len(e))); noise = e[min(int(new - 10 / fit[0]), len(e) * 9 // 10):].mean()
                if abs(new - end) < 48: break
                end = new
            E = np.cumsum(e[:end][::-1])[::-1]; D = 10 * np.log10(E / E[0])
            for u, v in ((0, -10), (-5, -25), (-5, -35)):
                i, j = int(np.argmax(D <= u)), int(np.argmax(D <= v))
                if j > i:
                    fit = np.polyfit(np.arange(i, j + 1) / fs, D[i:j + 1], 1)
                    if (u, v) == (-5, -25) and b == 1: out.append(-60 / fit[0])
    for o in range(2, 6):
        s = k - int(L * np.log(o) * fs)
        fft.rfft(np.roll(h, -s)[:14000], 65536)
    return time.perf_counter() - t0, time.process_time() - c0, t1 - c0, out
import sys
for _ in sys.stdin:
    whole, busy, part, out = once()
    print(json.dumps(dict(ms=whole * 1000, cpu=busy * 1000, deconvolved=part * 1000, t20=out)), flush=True)
`;
interface PeerRound {
  readonly ms: number;
  readonly cpu: number;
  readonly deconvolved: number;
  readonly t20: readonly number[];
}

// Both in turns, so that a busy machine hurts both alike.
const python = spawn('/usr/bin/python3', ['-c', SCRIPT], {
  cwd: folder,
  stdio: ['pipe', 'pipe', 'ignore'],
});
/** Where there is no such Python, or no scipy, we measure alone. */
const gone = (): void => undefined;
python.on('error', gone);
python.stdin.on('error', gone);
const answers = createInterface({ input: python.stdout })[Symbol.asyncIterator]();
const ours_ms: number[] = [];
const oursCpu_ms: number[] = [];
const oursDeconvolved_ms: number[] = [];
const peers: PeerRound[] = [];
/** Of all threads, those that clear memory with them. */
const busy_ms = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
let t20_s: readonly (number | null)[] = [];
for (let round = 0; round < ROUND_COUNT; round += 1) {
  const start = performance.now();
  const startCpu_ms = busy_ms();
  const { impulse } = recordedSweep(recording, { design: DESIGN }, null);
  oursDeconvolved_ms.push(busy_ms() - startCpu_ms);
  t20_s = takeFigures(impulse, OPTIONS)?.octaves.map((one) => one.t20_s) ?? [];
  oursCpu_ms.push(busy_ms() - startCpu_ms);
  ours_ms.push(performance.now() - start);
  python.stdin.write('\n');
  const { value, done } = await answers.next();
  if (done !== true) peers.push(JSON.parse(value) as PeerRound);
}
python.stdin.end();
rmSync(folder, { recursive: true });

const shown = (times: readonly (number | null)[]): string =>
  times.map((t) => (t === null ? '—' : t.toFixed(3))).join(' ');

const median_ms = (times_ms: readonly number[]): number => distributionOf(times_ms).median_ms;
const peerCpu_ms = peers.map(({ cpu }) => cpu);

export function tables(): readonly Table[] {
  const isAlone = peers.length === 0;
  const bound = median_ms(peerCpu_ms);
  const peerDeconvolved = `, scipy ${median_ms(peers.map((one) => one.deconvolved)).toFixed(0)} ms`;
  return [
    {
      title: 'Measurements',
      rows: [
        {
          name: '  a 20 s sweep, 48 kHz: all figures',
          times_ms: ours_ms,
          cpu_ms: oursCpu_ms,
          bound: isAlone ? 'no peer, no bound' : `CPU of scipy: ${bound.toFixed(0)} ms`,
          isKept: () => isAlone || median_ms(oursCpu_ms) <= bound,
        },
        {
          name: '    the same by scipy',
          times_ms: peers.map(({ ms }) => ms),
          cpu_ms: peerCpu_ms,
          bound: `${(median_ms(oursCpu_ms) / bound).toPrecision(2)} of its CPU; the peer`,
          isKept: () => true,
          isPeer: true,
          ...(isAlone ? { note: `  ${NO_PEER}` } : {}),
        },
      ],
      notes: [
        `  of that CPU to the impulse response: ${median_ms(oursDeconvolved_ms).toFixed(0)} ms${isAlone ? '' : peerDeconvolved}`,
        `  T20 per octave: ${shown(t20_s)}${isAlone ? '' : `; scipy ${shown(peers.at(-1)?.t20 ?? [])}`}`,
      ],
    },
  ];
}
