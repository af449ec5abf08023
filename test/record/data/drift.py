"""Makes drift.json: third-octave levels of two responses, and what moved between them, by NumPy and SciPy. Run: /usr/bin/python3 drift.py"""
import json

import numpy as np
import scipy
from scipy.integrate import quad

GRID = 20 * 2 ** (np.arange(241) / 24)
OCTAVES = np.log2(GRID)
rng = np.random.default_rng(20261103)


def ragged():
    """A room's response: random, with an octave's correlation shrinking to a sixth."""
    level = np.zeros_like(GRID)
    for n in range(1, 40):
        level += rng.normal() * 6 / n**0.7 * np.sin(2 * np.pi * n * OCTAVES / 10 + rng.uniform(0, 6))
    return level


before = np.round(ragged(), 3)
after = np.round(before + 3.7 + 1.5 * np.sin(OCTAVES * 1.3) - 5 * (GRID > 3000) * np.minimum(1, np.log2(np.maximum(GRID, 3000) / 3000)), 3)


def band_level(level, k):
    """Mean power over the logarithm of frequency; between points straight in decibels over octaves."""
    middle = 1000 * 10 ** (k / 10)
    low, high = np.log2(middle * 10 ** -0.05), np.log2(middle * 10 ** 0.05)
    inside = OCTAVES[(low < OCTAVES) & (OCTAVES < high)]
    power, _ = quad(lambda x: 10 ** (np.interp(x, OCTAVES, level) / 10), low, high, points=inside, epsabs=1e-12, epsrel=1e-10, limit=400)
    return 10 * np.log10(power / (high - low))


KS = [k for k in range(-18, 14) if GRID[0] <= 1000 * 10 ** (k / 10 - 0.05) and 1000 * 10 ** (k / 10 + 0.05) <= GRID[-1]]
NOMINAL = {-16: 25, -15: 31.5, -14: 40, -13: 50, -12: 63, -11: 80, -10: 100, -9: 125, -8: 160, -7: 200, -6: 250, -5: 315, -4: 400, -3: 500, -2: 630, -1: 800, 0: 1000, 1: 1250, 2: 1600, 3: 2000, 4: 2500, 5: 3150, 6: 4000, 7: 5000, 8: 6300, 9: 8000, 10: 10000, 11: 12500, 12: 16000}
earlier = np.array([band_level(before, k) for k in KS])
later = np.array([band_level(after, k) for k in KS])
moved = later - earlier
left = moved - moved.mean()
worst = int(np.argmax(np.abs(left)))
json.dump(
    {
        "description": "Third-octave levels (mean power over log frequency) of two responses, and the difference of shape and level between them.",
        "source": f"Python, NumPy {np.__version__}, SciPy {scipy.__version__} (scipy.integrate.quad); responses of a seed",
        "units": "Hz, dB",
        "tolerance": "1e-6 dB",
        "inputs": {"frequency_hz": [round(float(f), 6) for f in GRID], "before_db": before.tolist(), "after_db": after.tolist()},
        "expected": {
            "band_index": KS,
            "nominal_hz": [NOMINAL[k] for k in KS],
            "before_db": np.round(earlier, 6).tolist(),
            "after_db": np.round(later, 6).tolist(),
            "mean_db": round(float(moved.mean()), 6),
            "rms_db": round(float(np.sqrt((left**2).mean())), 6),
            "worst_hz": NOMINAL[KS[worst]],
            "worst_db": round(float(left[worst]), 6),
            "left_db": np.round(left, 6).tolist(),
        },
    },
    open("drift.json", "w"),
    indent=1,
)
print(len(KS), KS[0], KS[-1])
