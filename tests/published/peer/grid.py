"""Values of SciPy's PchipInterpolator along the grid lines of tables, for tests/model/grid.test.ts.

Run: /usr/bin/python3 tests/published/peer/grid.py > tests/published/peer/grid.json
"""
import json

import numpy as np
import scipy
from scipy.interpolate import PchipInterpolator

W = np.array([0, 40, 100, 180, 300, 420, 600, 800, 1000, 1300.0])
T = np.array([0, 5, 12, 20, 35, 50, 80, 110, 147.0])
# Loss of the textbook motor, Larminie & Lowry, Electric Vehicle Technology Explained, eq. 7.23.
MOTOR = 0.3 * T[None, :] ** 2 + 0.01 * W[:, None] + 5e-6 * W[:, None] ** 3 + 600
X = np.array([-2, -1.5, 0, 0.25, 3, 4.0])
Y = np.array([1, 2, 2.5, 7, 8.0])
# Rises and falls, with a ridge and flat stretches, but gently enough to keep all slopes.
RIDGE = np.round(20 + 3 * np.minimum(X[:, None], 1) - 0.8 * np.abs(Y[None, :] - 2.5), 6)


def line(x, z):
    curve = PchipInterpolator(x, z)
    at = np.unique(np.concatenate([0.5 * (x[1:] + x[:-1]), x[:-1] + 0.17 * np.diff(x)]))
    return {"at": at.tolist(), "value": curve(at).tolist(), "slope": curve.derivative()(at).tolist()}


def table(x, y, z):
    return {
        "x": x.tolist(),
        "y": y.tolist(),
        "z": z.ravel().tolist(),
        "along_x": [line(x, z[:, j]) for j in range(len(y))],
        "along_y": [line(y, z[i, :]) for i in range(len(x))],
    }


print(
    json.dumps(
        {"scipy": scipy.__version__, "tables": {"loss of a motor": table(W, T, MOTOR), "ridge": table(X, Y, RIDGE)}},
        indent=1,
    )
)
