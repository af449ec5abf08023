# Makes bessel.json: responses of Bessel low-passes and high-passes, orders 1 to 4, -3 dB at the corner. Needs SciPy.
import json
import numpy as np
import scipy
from scipy import signal

f_hz = [20, 40, 56, 80, 113, 160, 320]
filters = []
for order in (1, 2, 3, 4):
    for side in ("low_pass", "high_pass"):
        b, a = signal.bessel(order, 2 * np.pi * 80, side[:-5], analog=True, norm="mag")
        _, h = signal.freqs(b, a, 2 * np.pi * np.array(f_hz, dtype=float))
        filters.append({"order": order, "side": side, "re": h.real.tolist(), "im": h.imag.tolist()})
json.dump(
    {
        "description": "Bessel low-pass and high-pass at 80 Hz, -3 dB at the corner, e^{+jwt}.",
        "source": f"SciPy {scipy.__version__}, scipy.signal.bessel(norm='mag')",
        "expected": {"fc_hz": 80, "f_hz": f_hz, "filters": filters},
    },
    open("bessel.json", "w"),
)
