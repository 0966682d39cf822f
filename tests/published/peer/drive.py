"""Two cars on the WLTC and the UDDS by SciPy: the same equations, written apart from the project, the slip of a limited wheel by
bracketing, second by second with DOP853 (Debian's python3-scipy). Nothing is cut where a limit begins: the least of all limits is
taken at every call, and the tolerance does the rest.

Run: /usr/bin/python3 tests/published/peer/drive.py > tests/published/peer/drive.json      (some minutes)

Conventions as in the design of axlewatt: the speed is given, straight between the whole seconds; forces run from the road to the
pack. Rolling resistance is a moment on each wheel, drag acts at its own height, slip is quasi-static with the wheel at
(1 + slip) v / r; the drive is asked for its share of the braking and gives what regeneration, its share of the grip and the pack
allow, friction brakes do the rest; pack current is positive on discharge. The day is cold, so that the pack warms up, takes less
than it could, and the heater runs.
"""
import json
import math
import pathlib
import re

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

G0 = 9.80665
HERE = pathlib.Path(__file__).parent
DATA = HERE.parents[2] / "src" / "cycles" / "data"

# What the cars of the launch do not have: made up.
DAY = {"temperature": 278.15}
HEAT = {"capacity": 90e3, "cooling": 4.0, "resistanceActivation": 2400.0}
CABIN = {"heater": "resistive", "temperature": 294.15, "loss": 70.0, "heatCapacity": 90e3, "heaterPower": 4500.0, "sun": 150.0}

STATES = ["charge", "polarisation", "temperature"]
SUMS = ["terminals", "unit", "gears", "spin", "slip", "rolling", "drag", "slope", "brakes", "auxiliaries", "pack", "cells"]


def figures(file, names):
    text = (DATA / file).read_text()
    blocks = dict(re.findall(r"export const (\w+) = `([^`]*)`", text))
    lists = [[int(number) for number in blocks[name].split()] for name in names]
    # Each list begins with the last number of the one before.
    return lists[0] + [number for more in lists[1:] for number in more[1:]]


SCHEDULES = {
    "wltc": [x / 36 for x in figures("wltc.ts", ["LOW", "MEDIUM", "HIGH", "EXTRA_HIGH"])],
    "udds": [x * 0.044704 for x in figures("udds.ts", ["UDDS"])],
}


class Car:
    def __init__(self, case):
        car = case["car"]
        body, pack, drive = car["body"], car["pack"], car["drives"][0]
        self.drive, self.unit, self.regen, cell = drive, drive["unit"], drive["regeneration"], pack["cell"]
        self.wind = case["surroundings"]["wind"]
        m = body["mass"] + body["driver"] + body["load"]
        angle = math.atan(case["surroundings"]["slope"])
        h, L = body["cgHeight"], body["wheelbase"]
        self.grade = m * G0 * math.sin(angle)
        self.air = 0.5 * case["density"]
        self.cda, self.moment = body["dragArea"], body["dragHeight"] / L
        share = {"front": body["frontShare"], "rear": 1 - body["frontShare"]}
        self.sign = {"front": -1.0, "rear": 1.0}
        self.static = {a: m * G0 * (share[a] * math.cos(angle) + self.sign[a] * math.sin(angle) * h / L) for a in share}
        self.lift = {"front": body["liftAreaFront"], "rear": body["liftAreaRear"]}
        self.transfer = m * h / L
        self.d = drive["axle"]
        self.o = "rear" if self.d == "front" else "front"
        self.tyre, idle = car["tyres"][self.d], car["tyres"][self.o]
        self.m = m + 2 * idle["inertia"] / idle["radius"] ** 2
        # ISO 28580: 0.8 % less for each kelvin above 25 degC.
        warm = 1 / (1 + 0.008 * (DAY["temperature"] - 298.15))
        self.roll = {a: [warm * car["tyres"][a]["rolling"][k] for k in ("c0", "c1", "c2")] for a in share}
        self.J_wheels = 2 * self.tyre["inertia"] + drive["inertia"]
        dry = self.tyre["dry"]
        self.C = 2 - 2 / math.pi * math.asin(dry["slide"] / dry["peak"])
        self.B = math.tan(math.pi / 2 / self.C) / self.tyre["slipAtPeak"]
        group = pack["series"] / pack["parallel"] * pack["resistanceGrowth"]
        self.ocv = PchipInterpolator(cell["ocv"]["charge"], np.array(cell["ocv"]["voltage"]) * pack["series"])
        self.ohm = PchipInterpolator(cell["resistance"]["charge"], np.array(cell["resistance"]["ohm"]) * group)
        # Plain numbers: an interpolator that is asked for one value at a time is slow.
        self.ocv_c, self.ocv_x = self.ocv.c.T.tolist(), self.ocv.x.tolist()
        self.ohm_c, self.ohm_x = self.ohm.c.T.tolist(), self.ohm.x.tolist()
        self.wiring = pack["wiringResistance"]
        self.R1, self.tau = cell["pairs"][0]["resistance"] * group, cell["pairs"][0]["timeConstant"]
        self.Q = cell["capacity"] * pack["parallel"] * pack["health"]
        self.pack, self.charge = pack, pack["charge"]
        self.aux = car["auxiliaries"]["power"] / car["auxiliaries"]["converterEfficiency"]
        lost = CABIN["loss"] * (CABIN["temperature"] - DAY["temperature"]) - CABIN["sun"]
        self.steady, self.extra = lost, CABIN["heaterPower"] - lost
        self.fading = CABIN["heatCapacity"] * (CABIN["temperature"] - DAY["temperature"]) / self.extra

    @staticmethod
    def piece(x, c, s):
        k = max(0, min(len(c) - 1, int(np.searchsorted(x, s, "right")) - 1))
        t = s - x[k]
        return c[k][3] + t * (c[k][2] + t * (c[k][1] + t * c[k][0]))

    def loss(self, T, w):
        c = self.unit["losses"]
        return c["copper"] * T * T + c["iron"] * w + c["windage"] * w**3 + c["fixed"]

    def drawn(self, T, w):
        shaft, eta = T * w + self.loss(T, w), self.unit["inverterEfficiency"]
        return shaft / eta if shaft >= 0 else shaft * eta

    def powers(self, t, v, a, most):
        """Powers in the order of SUMS up to the auxiliaries. `most`: W that the pack takes."""
        auxiliaries = self.aux + self.steady + self.extra * math.exp(-t / self.fading)
        if v == 0 and a == 0:
            idle = self.unit["standstillLoss"]
            return [auxiliaries + idle, idle, 0, 0, 0, 0, 0, 0, 0, auxiliaries]
        air = v + self.wind
        drag = self.air * self.cda * air * abs(air)
        N, roll = {}, {}
        for x in (self.d, self.o):
            N[x] = self.static[x] + self.sign[x] * (self.moment * drag + self.transfer * a) - self.air * self.lift[x] * air * air
            c0, c1, c2 = self.roll[x]
            roll[x] = (c0 + c1 * v + c2 * v * v) * N[x]
        force = self.m * a + drag + self.grade + roll[self.d] + roll[self.o]
        tyre, r = self.tyre, self.tyre["radius"]
        n, eta = self.drive["ratio"], self.drive["efficiency"]
        peak = tyre["dry"]["peak"] * (N[self.d] / tyre["loadReference"]) ** -tyre["loadExponent"] * N[self.d]
        own = roll[self.d]

        def slip_of(F):
            return math.tan(math.asin(F / peak) / self.C) / self.B

        def shaft(F, s):
            """Torque and speed of the motor for a force at the contact patch."""
            spin = (1 + s) * a / r
            M = (F + own) * r + self.J_wheels * spin
            geared = M / (eta * n) if M >= 0 else M * eta / n
            return geared + self.unit["inertia"] * n * spin + self.drive["dragTorque"], n * (1 + s) * v / r, M

        # Braked is what slows more than the car would without torque at the motor, its slip left aside: there the road turns all
        # that turns with the wheels. That is no force where what turns brings more than it takes.
        spin = a / r
        coasting = -((self.unit["inertia"] * n * spin + self.drive["dragTorque"]) * n / eta + self.J_wheels * spin) / r
        coasting = min(0.0, coasting)
        braked = force < coasting
        F = (coasting + self.regen["share"] * (force - coasting) if braked else force) - own
        if braked:
            F = max(F, -self.regen["gripShare"] * peak)
        s = slip_of(F)
        T, w, M = shaft(F, s)
        if braked:
            g = self.regen
            fade = min(1, max(0, (v - g["fadeTo"]) / (g["fadeFrom"] - g["fadeTo"])))

            def too_much(F):
                """By how much the drive brakes more than it may, N m."""
                T, w, _ = shaft(F, slip_of(F))
                return T + fade * min(g["torque"], g["power"] / max(w, 1e-12))

            if too_much(F) < 0:
                F = brentq(too_much, F, 0.9 * peak, xtol=1e-13, rtol=8.9e-16)
                s = slip_of(F)
                T, w, M = shaft(F, s)
            if self.drawn(T, w) + auxiliaries < -most:

                def over(F):
                    T, w, _ = shaft(F, slip_of(F))
                    return self.drawn(T, w) + auxiliaries + most

                F = brentq(over, F, 0.9 * peak, xtol=1e-13, rtol=8.9e-16)
                s = slip_of(F)
                T, w, M = shaft(F, s)
        drawn = self.drawn(T, w)
        wheel, spin = (1 + s) * v / r, (1 + s) * a / r
        gears = (1 / eta - 1) * M * wheel if M >= 0 else (eta - 1) * M * wheel
        return [
            drawn + auxiliaries,
            drawn - T * w,
            gears + self.drive["dragTorque"] * w,
            self.J_wheels * spin * wheel + self.unit["inertia"] * n * spin * w,
            F * s * v,
            own * r * wheel + roll[self.o] * v,
            drag * v,
            self.grade * v,
            (F + own - force) * v,
            auxiliaries,
        ]

    def rates(self, t, y, from_, rise, begin):
        soc, v1, T = y[0], y[1], y[2]
        pack = self.pack
        open_ = self.piece(self.ocv_x, self.ocv_c, soc)
        E = open_ - v1
        warmth = math.exp(HEAT["resistanceActivation"] * (1 / T - 1 / 298.15))
        R = self.piece(self.ohm_x, self.ohm_c, soc) * warmth + self.wiring
        cold = pack["chargeCold"]
        warm = min(1, max(0, (T - cold["none"]) / (cold["full"] - cold["none"])))
        most_current = max(0, min(pack["maxChargeCurrent"] * warm, (pack["maxVoltage"] - E) / R))
        power = self.powers(t, from_ + rise * (t - begin), rise, most_current * (E + R * most_current))
        I = 2 * power[0] / (E + math.sqrt(E * E - 4 * R * power[0]))
        heat = R * I * I + v1 * v1 / (self.R1 * warmth)
        return [
            -I / self.Q,
            (self.R1 * I - v1 / warmth) / self.tau,
            (heat - HEAT["cooling"] * (T - DAY["temperature"])) / HEAT["capacity"],
            *power,
            heat,
            open_ * I,
        ]


def drive(case, speeds):
    car = Car(case)
    y = np.array([car.charge, 0.0, DAY["temperature"]] + [0.0] * len(SUMS))
    evaluations = 0
    for t, (a, b) in enumerate(zip(speeds, speeds[1:])):
        step = solve_ivp(
            car.rates,
            (t, t + 1),
            y,
            method="DOP853",
            rtol=1e-10,
            atol=[1e-13, 1e-10, 1e-10] + [1e-4] * len(SUMS),
            args=(a, b - a, t),
        )
        if step.status != 0:
            raise RuntimeError(step.message)
        y = step.y[:, -1]
        evaluations += step.nfev
    return {"evaluations": evaluations, **{name: float(x) for name, x in zip(STATES + SUMS, y)}}


cases = json.loads((HERE / "cars.json").read_text())
print(
    json.dumps(
        {
            "scipy": scipy.__version__,
            "day": DAY,
            "heat": HEAT,
            "cabin": CABIN,
            "cars": {
                name: {schedule: drive(case, speeds) for schedule, speeds in SCHEDULES.items()}
                for name, case in cases.items()
            },
        },
        indent=1,
    )
)
