"""The launch of a car whose wheels spin by SciPy: the model of launch.py with the wheel speed as a state, the acceleration by
bracketing, the integration by Radau (Debian's python3-scipy). No switches: the least of all limits is taken at every call, and
the tolerance does the rest. A looser run of another method, LSODA, tells how much of the answer is the integration's.

Run: /usr/bin/python3 tests/published/peer/spin.py > tests/published/peer/spin.json      (some seconds)

Conventions as in the design of axlewatt, besides those of launch.py: slip is the slip speed over sqrt(v^2 + (0.3 m/s)^2), the
tyre follows its curve past the peak.
"""
import contextlib
import io
import json
import math
import pathlib
import sys

import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

sys.dont_write_bytecode = True
with contextlib.redirect_stdout(io.StringIO()):  # launch.py prints its own answers
    from launch import EPS, MARKS, Model

SLIP_SPEED = 0.3


class Spinning(Model):
    def grip(self, v, slip):
        """Acceleration, tyre force and load of the driven axle, from the slip alone."""
        air = v + self.wind
        drag = self.k_air * self.cda * air * abs(air)
        d, o = self.driven, self.other
        N0 = {
            a: self.static[a] + self.sign[a] * self.h_air * drag - self.k_air * self.lift[a] * air * air
            for a in self.static
        }
        roll = {a: q["c0"] + q["c1"] * v + q["c2"] * v * v for a, q in self.roll.items()}
        k = self.sign[d] * self.transfer
        use = math.sin(self.C * math.atan(self.B * slip))

        def force(a):
            N = N0[d] + k * a
            return self.friction(N) * N * use

        def missing(a):
            return force(a) - roll[o] * (N0[o] - k * a) - drag - self.grade - self.m_eff * a

        a = brentq(missing, -5, 20, **EPS)
        return a, force(a), N0[d] + k * a, roll[d]

    def rates(self, _, y):
        v, _, soc, v1, turn = y[:5]
        v = max(v, 0.0)
        E = float(self.ocv(soc)) - v1
        R = float(self.ohm(soc)) + self.wiring
        r, ratio = self.tyre["radius"], self.drive["ratio"]
        slip_speed = turn * r - v
        a, F, N, c = self.grip(v, slip_speed / math.hypot(v, SLIP_SPEED))
        w = ratio * turn
        T = self.torque_available(w, E, R)
        wheel = self.drive["efficiency"] * ratio * (T - self.drive["dragTorque"])
        P = self.bus(T, w)
        current = (E - math.sqrt(E * E - 4 * R * P)) / (2 * R)
        return [
            a,
            v,
            -current / self.Q,
            (self.R1 * current - v1) / self.tau,
            (wheel - (F + c * N) * r) / self.J,
            (E + v1) * current,
            F * slip_speed,
        ]


STATES = ("speed", "distance", "charge", "polarisation", "wheel", "chemical", "slip")
SIZES = (1, 1, 1e-3, 1, 1, 1e6, 1e5)


def launch(case, method, rtol):
    model = Spinning(case["car"], case["density"], **case["surroundings"])

    def event(index, value):
        def passed(_, y):
            return y[index] - value

        passed.terminal = (index, value) == MARKS["quarter_mile"]
        return passed

    solution = solve_ivp(
        model.rates,
        (0, 60),
        [0, 0, case["car"]["pack"]["charge"], 0, 0, 0, 0],
        method=method,
        rtol=rtol,
        atol=[rtol * size for size in SIZES],
        max_step=0.05,
        events=[event(*mark) for mark in MARKS.values()],
    )
    marks = {}
    for name, times, states in zip(MARKS, solution.t_events, solution.y_events):
        marks[name] = {"time": float(times[0])} | dict(zip(STATES, map(float, states[0])))
    print(method, rtol, solution.nfev, marks, file=sys.stderr)
    return {"evaluations": int(solution.nfev), "marks": marks}


def apart(one, other):
    """Largest relative difference of two answers."""
    return max(abs(one[m][k] / other[m][k] - 1) for m in one for k in one[m])


case = json.loads((pathlib.Path(__file__).parent / "cars.json").read_text())["front"]
rtol = float(sys.argv[1]) if len(sys.argv) > 1 else 1e-10
answer = launch(case, "Radau", rtol)
second = launch(case, "LSODA", 10 * rtol)
print(
    json.dumps(
        {
            "scipy": scipy.__version__,
            "method": f"Radau, rtol {rtol:g}",
            "lsoda": float(f"{apart(second['marks'], answer['marks']):.1e}"),
            **answer,
        },
        indent=1,
    )
)
