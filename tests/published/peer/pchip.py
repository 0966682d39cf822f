"""Values of SciPy's PchipInterpolator (Debian's python3-scipy) for tests/model/curve.test.ts.

Run: /usr/bin/python3 tests/published/peer/pchip.py > tests/published/peer/pchip.json
"""
import json

import numpy as np
import scipy
from scipy.interpolate import PchipInterpolator

TABLES = {
    "open-circuit voltage": (
        [0, 0.0151, 0.0452, 0.0955, 0.1508, 0.2915, 0.4573, 0.8342, 0.9497, 1],
        [2.5061, 2.8981, 3.1461, 3.3231, 3.4218, 3.5737, 3.7017, 4.0637, 4.1009, 4.1932],
    ),
    "with turning points and a flat stretch": ([-3, -1, 0, 0.5, 4, 5, 9], [2, -1, -1, 4, 3.5, 3.5, -8]),
    "end slope cut back to nothing": ([0, 1, 3], [0, 1, 9]),
    "end slope cut back to three secants": ([0, 1, 1.1], [0, 1, -4]),
    "straight": ([1, 3], [2, 8]),
}


def values(x, y):
    curve = PchipInterpolator(x, y)
    slope = curve.derivative()
    at = np.unique(np.concatenate([np.linspace(x[0], x[-1], 23), x]))
    return {
        "x": x,
        "y": y,
        "at": at.tolist(),
        "value": curve(at).tolist(),
        "slope": slope(at).tolist(),
    }


print(json.dumps({"scipy": scipy.__version__, "tables": {name: values(*t) for name, t in TABLES.items()}}, indent=1))
