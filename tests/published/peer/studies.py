"""Values of SciPy (Debian's python3-scipy) for tests/studies and tests/published/checks/uncertainty.ts.

Run: /usr/bin/python3 tests/published/peer/studies.py > tests/published/peer/studies.json
The intervals of JCGM 101 are worked out from the cumulative distribution by quadrature, those of its gauge block, which has too
many inputs for that, from 4e7 random samples.
"""
import json

import numpy as np
import scipy
from scipy import optimize, stats
from scipy.stats import qmc

PROBABILITIES = [1e-300, 1e-20, 1e-9, 1e-4, 0.02, 0.074, 0.076, 0.3, 0.5, 0.6, 0.924, 0.926, 0.999, 1 - 1e-10]
PLACES = [-30, -10, -7.2, -7, -3, -1, -0.2, 0, 0.4, 2, 5, 8]
DIMENSIONS = [0, 1, 2, 5, 17, 60, 100, 127]
POINTS = 32


def normal():
    return {
        "quantile": [[p, stats.norm.ppf(p)] for p in PROBABILITIES],
        "cumulative": [[x, stats.norm.cdf(x)] for x in PLACES],
    }


def conditioned():
    rows = []
    for value, standard, low, high in [
        (0.97, 0.02, 0, 1), (0, 1, -1, 1), (0, 1, 1, np.inf), (10, 2, -np.inf, 9.5), (0, 1, 5, 5.2), (3, 1, -4, 0),
        (0, 1, -0.001, 0.002),
    ]:
        d = stats.truncnorm((low - value) / standard, (high - value) / standard, value, standard)
        # Moments by quadrature in the probability: SciPy's own lose digits for narrow limits.
        nodes, weights = np.polynomial.legendre.leggauss(400)
        z = np.linspace(max(low, value - 12 * standard), min(high, value + 12 * standard), 2)
        x = z[0] + (nodes + 1) / 2 * (z[1] - z[0])
        w = weights * stats.norm.pdf((x - value) / standard)
        mean = (w * x).sum() / w.sum()
        deviation = np.sqrt((w * (x - mean) ** 2).sum() / w.sum())
        rows.append({
            "value": value, "standard": standard,
            "min": None if np.isinf(low) else low, "max": None if np.isinf(high) else high,
            "mean": mean, "deviation": deviation, "quantiles": [[u, d.ppf(u)] for u in (0.01, 0.5, 0.9)],
        })
    return rows


def sobol():
    points = qmc.Sobol(d=max(DIMENSIONS) + 1, scramble=False, bits=30).random(POINTS)
    return {"dimensions": DIMENSIONS, "points": points[:, DIMENSIONS].tolist()}


def shortest(cdf, low, high, share, floor=None):
    """Shortest interval with a share of the probability; `floor` is the end of the support, if there is one."""
    quantile = lambda p: optimize.brentq(lambda y: cdf(y) - p, low, high, xtol=1e-14)
    width = lambda p: quantile(p + share) - (quantile(p) if p > 0 else floor)
    best = optimize.minimize_scalar(width, bounds=(1e-9, 1 - share - 1e-9), method="bounded", options={"xatol": 1e-10}).x
    if floor is not None and width(0) < width(best):
        return [floor, quantile(share)]
    return [quantile(best), quantile(best + share)]


def mass():
    """JCGM 101, 9.3: given the three densities the mass is normal."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    unit, w = (nodes + 1) / 2, weights / 2
    air, weight, reference = np.meshgrid(1.1 + 0.2 * unit, 7000 + 2000 * unit, 7950 + 100 * unit, indexing="ij")
    share = w[:, None, None] * w[None, :, None] * w[None, None, :]
    factor = 1 + (air - 1.2) * (1 / weight - 1 / reference)
    mean = 100001.234 * factor - 100000
    deviation = np.hypot(0.05, 0.02) * factor
    cdf = lambda y: (share * stats.norm.cdf((y - mean) / deviation)).sum()
    total = (share * mean).sum()
    standard = np.sqrt((share * (deviation**2 + (mean - total) ** 2)).sum())
    return {"mean": total, "standard": standard, "shortest": shortest(cdf, 0.5, 2, 0.95)}


def loss(x1, r):
    """JCGM 101, 9.4: X1^2 + X2^2 as a weighted sum of two squares of independent normal variables; in units of 1e-6."""
    u = 0.005
    l1, l2 = u * np.sqrt(1 + r), u * np.sqrt(1 - r)
    a1, a2 = x1 / np.sqrt(2) / l1, x1 / np.sqrt(2) / l2
    nodes, weights = np.polynomial.legendre.leggauss(600)

    def cdf(y):
        if y <= 0:
            return 0.0
        reach = np.sqrt(y) / l1
        low, high = max(-reach, a1 - 10), min(reach, a1 + 10)
        if high <= low:
            return 0.0
        # In the angle the root at the end of the reach is smooth.
        angles = np.arcsin(np.clip([low / reach, high / reach], -1, 1))
        angle = angles[0] + (nodes + 1) / 2 * (angles[1] - angles[0])
        z = reach * np.sin(angle)
        rest = np.sqrt(y) * np.cos(angle) / l2
        inner = stats.norm.cdf(rest - a2) - stats.norm.cdf(-rest - a2)
        jacobian = reach * np.cos(angle) * (angles[1] - angles[0]) / 2
        return (weights * jacobian * stats.norm.pdf(z - a1) * inner).sum()

    mean = x1**2 + 2 * u**2
    variance = 2 * (l1**4 * (1 + 2 * a1**2) + l2**4 * (1 + 2 * a2**2))
    ends = shortest(cdf, 0, x1**2 + 0.003, 0.95, 0.0)
    return {"x1": x1, "r": r, "mean": mean * 1e6, "standard": np.sqrt(variance) * 1e6, "shortest": [e * 1e6 for e in ends]}


def gauge():
    """JCGM 101, 9.5, in nm."""
    rng = np.random.default_rng(20261125)
    parts = []
    for _ in range(40):
        n = 1_000_000
        student = lambda mean, scale, freedom: mean + scale * rng.standard_t(freedom, n)
        def trapezoid(low, high, d):
            start = (low - d) + 2 * d * rng.random(n)
            end = (low + high) - start
            return start + (end - start) * rng.random(n)
        ls = student(50_000_623, 25, 18)
        d = student(215, 6, 24) + student(0, 4, 5) + student(0, 7, 8)
        alpha = 9.5e-6 + 4e-6 * rng.random(n)
        theta = rng.normal(-0.1, 0.2, n) + 0.5 * np.sin(2 * np.pi * rng.random(n))
        parts.append(ls + d - ls * (trapezoid(-1e-6, 1e-6, 0.1e-6) * theta + alpha * trapezoid(-0.05, 0.05, 0.025)) - 50_000_000)
    y = np.sort(np.concatenate(parts))
    q = round(0.99 * len(y))
    k = np.argmin(y[q:] - y[: len(y) - q])
    side = (len(y) - q) // 2
    return {"mean": y.mean(), "standard": y.std(ddof=1), "shortest": [y[k], y[k + q]], "symmetric": [y[side], y[side + q]]}


print(json.dumps({
    "scipy": scipy.__version__,
    "normal": normal(),
    "conditioned": conditioned(),
    "sobol": sobol(),
    "mass": mass(),
    "loss": [loss(x1, r) for r in (0, 0.9) for x1 in (0, 0.010, 0.050)],
    "gauge": gauge(),
}, indent=1))
