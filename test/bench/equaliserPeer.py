# The peer of the EQ fit: SciPy's own global optimiser on the same task, its time and what is left (JSON in, JSON out).
import json
import sys
import time

import numpy as np
from scipy import optimize

task = json.load(sys.stdin)
f = np.array(task['frequency_hz'])
low = np.array([np.log10(20), np.log10(0.5), -12.0] * 3)
high = np.array([np.log10(200), np.log10(10), 0.0] * 3)


def bells(p):
    total = 0
    for i in range(3):
        f0, q, g = 10 ** p[3 * i], 10 ** p[3 * i + 1], p[3 * i + 2]
        t = (f0 / f - f / f0) ** 2
        a2 = 10 ** (g / 20)
        total = total + 10 * np.log10((t + a2 / q ** 2) / (t + 1 / (a2 * q ** 2)))
    return total


out = []
for case in task['cases']:
    r = np.array(case['response_db']) - case['target_db']
    cost = lambda p: np.sqrt(np.mean((r + bells(p)) ** 2))
    start = time.perf_counter()
    found = optimize.differential_evolution(cost, list(zip(low, high)), seed=1, polish=True)
    out.append({'ms': (time.perf_counter() - start) * 1000, 'left_db': float(found.fun)})
json.dump(out, sys.stdout)
