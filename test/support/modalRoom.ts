// The room model of the stored placement data: a sum over rigid-wall modes with stated decay times, as a map for the search.
import { emptyMap, type TransferMap } from '../../core/search/transferMap.ts';

export interface ModalRoom {
  readonly room_m: readonly [number, number, number];
  readonly decayTime_s: number;
  readonly speedOfSound_m_s: number;
  readonly limit_hz: number;
}

type Triple = readonly [number, number, number];

/**
 * p(f) = Σ e cos(..x_s) cos(..x_r)/(w_n² − w² + 2jwd_n), all modes up to the limit, the one of order 0, 0, 0 included;
 * T for it and axial modes, 0.85 T tangential, 0.7 T oblique.
 *
 * @source stated in the data itself (`model`)
 */
export function modalMap(
  { room_m, decayTime_s, speedOfSound_m_s, limit_hz }: ModalRoom,
  frequency_hz: readonly number[],
  seats_m: readonly Triple[],
  points_m: readonly Triple[],
): TransferMap {
  const points = points_m.map(([x_m, y_m, z_m]) => ({ x_m, y_m, z_m }));
  const map = emptyMap(frequency_hz, points, seats_m.length);
  const orders = ordersBelow(room_m, speedOfSound_m_s, limit_hz);
  const shape = (order: Triple, at: Triple) =>
    order.reduce(
      (product, n, i) => product * Math.cos((n * Math.PI * (at[i] ?? 0)) / (room_m[i] ?? 1)),
      1,
    );
  const modes = orders.map(({ order, f_hz }) => {
    const axisCount = order.filter((n) => 0 < n).length;
    const T = decayTime_s * ([1, 1, 0.85, 0.7][axisCount] ?? 1);
    return { order, w0: 2 * Math.PI * f_hz, d: (3 * Math.LN10) / T, e: 2 ** axisCount };
  });
  const heard = seats_m.map((seat) => modes.map(({ order, e }) => e * shape(order, seat)));
  const gains = frequency_hz.map((f_hz) =>
    modes.map(({ w0, d }) => {
      const w = 2 * Math.PI * f_hz;
      const [re, im] = [w0 * w0 - w * w, 2 * w * d];
      const size = re * re + im * im;
      return [re / size, -im / size] as const;
    }),
  );
  points_m.forEach((point, p) => {
    const driven = modes.map(({ order }) => shape(order, point));
    heard.forEach((ear, s) => {
      const both = driven.map((value, n) => value * (ear[n] ?? 0));
      gains.forEach((gain, f) => {
        const at = (p * seats_m.length + s) * frequency_hz.length + f;
        let re = 0;
        let im = 0;
        for (let n = 0; n < both.length; n++) {
          const [gRe, gIm] = gain[n] as readonly [number, number];
          re += (both[n] as number) * gRe;
          im += (both[n] as number) * gIm;
        }
        map.re[at] = re;
        map.im[at] = im;
      });
    });
  });
  return map;
}

function ordersBelow([lx, ly, lz]: Triple, c: number, limit_hz: number) {
  const found: { readonly order: Triple; readonly f_hz: number }[] = [];
  for (let x = 0; (c * x) / (2 * lx) <= limit_hz; x++)
    for (let y = 0; (c * y) / (2 * ly) <= limit_hz; y++)
      for (let z = 0; (c * z) / (2 * lz) <= limit_hz; z++) {
        const f_hz = (c / 2) * Math.hypot(x / lx, y / ly, z / lz);
        if (f_hz <= limit_hz) found.push({ order: [x, y, z], f_hz });
      }
  return found;
}
