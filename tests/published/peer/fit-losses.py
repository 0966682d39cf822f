"""Non-negative least squares of SciPy for tests/model/fit-losses.test.ts.

Losses kc T^2 + ki w + kw w^3 + C from efficiency points, each row weighted by eta^2 / (T w), the change of the
efficiency by the loss.

Run: /usr/bin/python3 tests/published/peer/fit-losses.py > tests/published/peer/fit-losses.json
"""
import json

import numpy as np
import scipy
from scipy.optimize import nnls

rng = np.random.default_rng(20)
cases = []
for _ in range(12):
    n = int(rng.integers(5, 10))
    torque = np.round(rng.uniform(10, 250, n), 1)
    speed = np.round(rng.uniform(60, 1200, n), 1)
    efficiency = np.round(rng.uniform(0.8, 0.96, n), 3)
    power = torque * speed
    weight = efficiency**2 / power
    A = np.stack([torque**2, speed, speed**3, np.ones(n)], axis=1) * weight[:, None]
    b = power * (1 / efficiency - 1) * weight
    scale = np.linalg.norm(A, axis=0)
    x, miss = nnls(A / scale, b)
    points = [{"torque": t, "speed": w, "efficiency": e} for t, w, e in zip(torque, speed, efficiency)]
    cases.append({"points": points, "constants": (x / scale).tolist(), "miss": miss})

print(json.dumps({"scipy": scipy.__version__, "cases": cases}, indent=1))
