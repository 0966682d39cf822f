"""The launch of two cars by SciPy: the same equations, written apart from the project, every implicit one solved by
bracketing, the integration by DOP853 (Debian's python3-scipy). No switches: the least of all limits is taken at every call, and the
tolerance does the rest.

Run: /usr/bin/python3 tests/published/peer/launch.py > tests/published/peer/launch.json      (some seconds)

Conventions as in the design of axlewatt: rolling resistance is a moment on each wheel, drag acts at its own height, slip is
quasi-static with the wheel at (1 + slip) v / r, the tyre holds its peak at the grip limit, pack current is positive on discharge.
"""
import json
import math
import pathlib

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

G0 = 9.80665
EPS = dict(xtol=1e-14, rtol=8.9e-16)


class Model:
    def __init__(self, car, density, slope, wind):
        body, pack, drive = car["body"], car["pack"], car["drives"][0]
        unit, cell = drive["unit"], pack["cell"]
        self.unit, self.drive, self.wind = unit, drive, wind
        self.m = body["mass"] + body["driver"] + body["load"]
        angle = math.atan(slope)
        weight = self.m * G0
        h, L = body["cgHeight"], body["wheelbase"]
        self.grade = weight * math.sin(angle)
        self.k_air = 0.5 * density
        self.cda, self.h_air = body["dragArea"], body["dragHeight"] / L
        self.lift = {"front": body["liftAreaFront"], "rear": body["liftAreaRear"]}
        share = {"front": body["frontShare"], "rear": 1 - body["frontShare"]}
        self.sign = {"front": -1.0, "rear": 1.0}
        self.static = {
            a: weight * (share[a] * math.cos(angle) + self.sign[a] * math.sin(angle) * h / L) for a in share
        }
        self.transfer = self.m * h / L
        self.driven = drive["axle"]
        self.other = "rear" if self.driven == "front" else "front"
        self.tyre, idle = car["tyres"][self.driven], car["tyres"][self.other]
        self.roll = {a: car["tyres"][a]["rolling"] for a in share}
        self.m_eff = self.m + 2 * idle["inertia"] / idle["radius"] ** 2
        self.J = (
            2 * self.tyre["inertia"]
            + drive["inertia"]
            + drive["efficiency"] * drive["ratio"] ** 2 * unit["inertia"]
        )
        friction = self.tyre["dry"]
        self.C = 2 - 2 / math.pi * math.asin(friction["slide"] / friction["peak"])
        self.s_peak = self.tyre["slipAtPeak"]
        self.B = math.tan(math.pi / 2 / self.C) / self.s_peak
        self.ocv = PchipInterpolator(cell["ocv"]["charge"], np.array(cell["ocv"]["voltage"]) * pack["series"])
        group = pack["series"] / pack["parallel"] * pack["resistanceGrowth"]
        self.ohm = PchipInterpolator(cell["resistance"]["charge"], np.array(cell["resistance"]["ohm"]) * group)
        self.wiring = pack["wiringResistance"]
        self.R1, self.tau = cell["pairs"][0]["resistance"] * group, cell["pairs"][0]["timeConstant"]
        self.Q = cell["capacity"] * pack["parallel"] * pack["health"]
        self.i_max, self.v_min = pack["maxCurrent"], pack["minVoltage"]
        self.aux = car["auxiliaries"]["power"] / car["auxiliaries"]["converterEfficiency"]

    def loss(self, T, w):
        c = self.unit["losses"]
        return c["copper"] * T * T + c["iron"] * w + c["windage"] * w**3 + c["fixed"]

    def bus(self, T, w):
        return (T * w + self.loss(T, w)) / self.unit["inverterEfficiency"] + self.aux

    def torque_available(self, w, E, R):
        u = self.unit
        T = u["peakTorque"]
        if w > 0:
            T = min(T, u["peakPower"] / w)
        taper = min(u["peakTorque"], u["peakPower"] / u["taperSpeed"]) / (u["maxSpeed"] - u["taperSpeed"])
        T = min(T, taper * (u["maxSpeed"] - w))
        # What the pack can give: the smaller of its current and its voltage limit, and half the voltage at most.
        V = max(self.v_min, E / 2, E - R * self.i_max)
        most = V * (E - V) / R
        if self.bus(T, w) > most:
            T = brentq(lambda t: self.bus(t, w) - most, 0, T, **EPS)
        # Power in proportion to the voltage below the reference voltage.
        if w > 0:

            def excess(t):
                root = E * E - 4 * R * self.bus(t, w)
                V = (E + math.sqrt(root)) / 2
                return t * w - u["peakPower"] * V / u["referenceVoltage"]

            if excess(T) > 0:
                T = brentq(excess, 0, T, **EPS)
        return T

    def friction(self, N):
        return self.tyre["dry"]["peak"] * (N / self.tyre["loadReference"]) ** -self.tyre["loadExponent"]

    def balance(self, v, E, R):
        """Acceleration, motor torque and motor speed."""
        air = v + self.wind
        drag = self.k_air * self.cda * air * abs(air)
        N0 = {
            a: self.static[a] + self.sign[a] * self.h_air * drag - self.k_air * self.lift[a] * air * air
            for a in self.static
        }
        c = {a: q["c0"] + q["c1"] * v + q["c2"] * v * v for a, q in self.roll.items()}
        d, o = self.driven, self.other
        k = self.sign[d] * self.transfer
        r, eta, ratio, drag_T = (
            self.tyre["radius"],
            self.drive["efficiency"],
            self.drive["ratio"],
            self.drive["dragTorque"],
        )

        def driven_by_motor(s):
            w = ratio * (1 + s) * v / r
            T = self.torque_available(w, E, R)
            wheel = eta * ratio * (T - drag_T) / r
            spin = self.J * (1 + s) / r**2
            a = (wheel - c[d] * N0[d] - c[o] * N0[o] - drag - self.grade) / (self.m_eff + spin + (c[d] - c[o]) * k)
            N = N0[d] + k * a
            return wheel - c[d] * N - spin * a, N, a, T, w

        def missing(s):
            F, N, *_ = driven_by_motor(s)
            return self.friction(N) * N * math.sin(self.C * math.atan(self.B * s)) - F

        if missing(self.s_peak) >= 0:
            s = brentq(missing, 0, self.s_peak, **EPS)
            _, _, a, T, w = driven_by_motor(s)
            return a, T, w

        def gripping(a):
            N = N0[d] + k * a
            return self.friction(N) * N - c[o] * (N0[o] - k * a) - drag - self.grade - self.m_eff * a

        a = brentq(gripping, -5, 20, **EPS)
        N = N0[d] + k * a
        s = self.s_peak
        wheel = self.friction(N) * N + c[d] * N + self.J * (1 + s) * a / r**2
        return a, wheel * r / (eta * ratio) + drag_T, ratio * (1 + s) * v / r

    def rates(self, _, y):
        v, _, soc, v1, _ = y
        v = max(v, 0.0)
        E = float(self.ocv(soc)) - v1
        R = float(self.ohm(soc)) + self.wiring
        a, T, w = self.balance(v, E, R)
        P = self.bus(T, w)
        current = (E - math.sqrt(E * E - 4 * R * P)) / (2 * R)
        return [a, v, -current / self.Q, (self.R1 * current - v1) / self.tau, (E + v1) * current]


MARKS = {
    "50_km_h": (0, 50 / 3.6),
    "100_km_h": (0, 100 / 3.6),
    "60_ft": (1, 18.288),
    "quarter_mile": (1, 402.336),
}


def launch(case):
    model = Model(case["car"], case["density"], **case["surroundings"])

    def event(index, value):
        def passed(_, y):
            return y[index] - value

        passed.terminal = (index, value) == MARKS["quarter_mile"]
        return passed

    solution = solve_ivp(
        model.rates,
        (0, 60),
        [0, 0, case["car"]["pack"]["charge"], 0, 0],
        method="DOP853",
        rtol=1e-11,
        atol=[1e-10, 1e-10, 1e-13, 1e-10, 1e-4],
        max_step=0.005,
        events=[event(*mark) for mark in MARKS.values()],
    )
    marks = {}
    for name, times, states in zip(MARKS, solution.t_events, solution.y_events):
        y = states[0]
        marks[name] = {
            "time": float(times[0]),
            "speed": float(y[0]),
            "distance": float(y[1]),
            "charge": float(y[2]),
            "polarisation": float(y[3]),
            "chemical": float(y[4]),
        }
    return {"evaluations": int(solution.nfev), "marks": marks}


cases = json.loads((pathlib.Path(__file__).parent / "cars.json").read_text())
print(json.dumps({"scipy": scipy.__version__, "cars": {name: launch(case) for name, case in cases.items()}}, indent=1))
