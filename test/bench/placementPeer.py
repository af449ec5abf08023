# The peer of the placement search: NumPy and brute force over the same grid, cost and frequencies (JSON in, JSON out).
import json
import sys
import time

import numpy as np

task = json.load(sys.stdin)
room, c = np.array(task['room_m']), 343.0
f = np.array(task['frequency_hz'])
seats, points = np.array(task['seats_m']), np.array(task['points_m'])


def transfers():
    limit = 300.0
    n = [np.arange(int(2 * limit * side / c) + 1) for side in room]
    N = np.stack(np.meshgrid(*n, indexing='ij'), -1).reshape(-1, 3)
    fn = c / 2 * np.sqrt(((N / room) ** 2).sum(1))
    N, fn = N[fn <= limit], fn[fn <= limit]
    e = np.where(N > 0, 2.0, 1.0).prod(1)
    w, wn, d = 2 * np.pi * f[:, None], 2 * np.pi * fn, 3 * np.log(10) / task['decay_s']
    G = e / (wn ** 2 - w ** 2 + 2j * w * d)
    shape = lambda at: np.prod(np.cos(at[:, None, :] * N[None] * np.pi / room), axis=2)
    S, R = shape(points), shape(seats)
    return np.stack([(S * R[r]) @ G.T for r in range(len(seats))], 1)


def cost(p):
    level = 20 * np.log10(np.abs(p))
    return level.std(-1).mean(-1) + level.std(-2).mean(-1)


start = time.perf_counter()
H = transfers()
if task['sub_count'] == 1:
    best = float(cost(H).min())
else:
    best = min(float(cost(H[i][None] + H[i + 1:]).min()) for i in range(len(points) - 1))
json.dump({'ms': (time.perf_counter() - start) * 1000, 'cost_db': best}, sys.stdout)
