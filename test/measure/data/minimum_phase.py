"""Makes minimum_phase.json: phases of minimum-phase filters that a delay and an all-pass hide, by SciPy. Run: /usr/bin/python3 minimum_phase.py"""
import json

import numpy as np
import scipy
from scipy.signal import butter, sosfreqz

FS = 8000
N = 16384
K = np.arange(120, 2600, 40)
W = 2 * np.pi * K / N


def bell(f0, q, gain_db):
    """Cookbook peaking section."""
    a = 10 ** (gain_db / 40)
    w = 2 * np.pi * f0 / FS
    alpha = np.sin(w) / (2 * q)
    b = np.array([1 + alpha * a, -2 * np.cos(w), 1 - alpha * a])
    d = np.array([1 + alpha / a, -2 * np.cos(w), 1 - alpha / a])
    return np.r_[b / d[0], d / d[0]][None, :]


CASES = {
    "high-pass, bell, low-pass": np.vstack([butter(4, 60, "high", fs=FS, output="sos"), bell(300, 3, 6), butter(2, 1500, fs=FS, output="sos")]),
    "three cuts and a shelf of poles": np.vstack([bell(90, 5, -9), bell(180, 2, -6), bell(700, 1, -4), butter(1, 30, "high", fs=FS, output="sos")]),
}
cases = []
for name, sos in CASES.items():
    _, h = sosfreqz(sos, W)
    cases.append(
        {
            "name": name,
            "sos": np.round(sos, 12).tolist(),
            "bins": K.tolist(),
            "level_db": np.round(20 * np.log10(np.abs(h)), 8).tolist(),
            "phase_rad": np.round(np.angle(h), 8).tolist(),
        }
    )
json.dump(
    {
        "description": "Filters of minimum phase (all zeros on or within the unit circle): level and phase at bins of a transform.",
        "source": f"Python, NumPy {np.__version__}, SciPy {scipy.__version__}: scipy.signal.butter, cookbook bells, sosfreqz",
        "units": "dB, rad, e^{+jwt}",
        "tolerance": "1e-7",
        "inputs": {"fs_hz": FS, "transform": N, "hidden_delay_samples": 37, "hidden_all_pass": {"f_hz": 200, "q": 1}},
        "expected": {"cases": cases},
    },
    open("minimum_phase.json", "w"),
    indent=1,
)
