"""The WLTC of bench/drive.ts by SciPy's solve_ivp: the same equations in plain Python. The speed is given, straight between whole
seconds, so the states are those of the pack; every second is a run of its own, the energies are more states. Answers the same
requests.

Methods: RK45, DOP853, LSODA.

Run: /usr/bin/python3 bench/peer/scipy_drive.py PARAMETERS.json     (the answer to `parameters`)
"""
import json
import math
import pathlib
import sys
import time
from types import SimpleNamespace

import numpy as np
from scipy.integrate import solve_ivp

PASSES = 5
SCALES = [0.01, 1.0, 1.0, 100.0]
ENERGY_SCALE = 1e4


def curve(records, x):
    """A packed curve at x: records of x, c0, c1, c2, c3."""
    low, high = 0, len(records)
    while high - low > 1:
        middle = (low + high) // 2
        if x < records[middle][0]:
            high = middle
        else:
            low = middle
    x0, c0, c1, c2, c3 = records[low]
    t = x - x0
    return c0 + c1 * t if t < 0 else c0 + t * (c1 + t * (c2 + t * c3))


class Driver:
    def __init__(self, car):
        layout, block, follow = car["layout"], car["block"], car["follow"]

        def named(numbers, places, offset=0):
            return SimpleNamespace(**{name: numbers[offset + at] for name, at in places.items() if name != "axle0"})

        self.p = named(block, {name: at for name, at in layout["P"].items() if name != "pair0"})
        front, rear = (named(block, layout["A"], layout["P"]["axle0"] + k * layout["AXLE_SIZE"]) for k in (0, 1))
        self.d, self.u = (front, rear) if car["axle"] == 0 else (rear, front)
        self.f = named(follow, layout["F"])
        self.g = named(follow, layout["FA"], layout["F"]["axle0"] + car["axle"] * layout["FA_SIZE"])
        pair = {name: layout["F"][name] for name in ("pairRate", "pairOhm", "pairSiemens")}
        self.pairs = [tuple(follow[at + i] for at in pair.values()) for i in (0, 1)]
        self.ocv, self.ohm = (np.reshape(car[name], (-1, 5)).tolist() for name in ("ocv", "resistance"))
        self.speed, self.start, self.consumed = car["speed"], car["start"], car["auxiliaries"]
        self.names = car["energies"]
        self.evaluations = 0

    def slip_of(self, share):
        d = self.d
        return math.tan(math.asin(min(1, max(-1, share))) / d.shape) / d.stiffness * d.slipAtPeak

    def loss(self, T, w):
        d = self.d
        return d.copper * T * T + w * (d.iron + d.windage * w * w) + d.fixed

    def torque_giving(self, power, w):
        d = self.d
        useful = (power / d.inverter if power < 0 else power * d.inverter) - self.loss(0, w)
        return 0 if useful >= 0 else 2 * useful / (w + math.sqrt(max(0, w * w + 4 * d.copper * useful)))

    def powers(self, v, a, most):
        """In the order of the energies but the last; the pack takes no more than `most`."""
        p, d, u, g, consumed = self.p, self.d, self.u, self.g, self.consumed
        if v == 0 and a == 0:
            return [consumed + g.standstill, g.standstill, 0, 0, 0, 0, 0, 0, 0]
        air = v + p.wind
        drag = p.halfRhoCdA * air * abs(air)
        moved = p.dragMoment * drag + p.transfer * a
        load = d.staticLoad + d.sign * moved - d.liftFactor * air * air
        other = u.staticLoad + u.sign * moved - u.liftFactor * air * air
        roll = (d.c0 + v * (d.c1 + v * d.c2)) * load
        free = (u.c0 + v * (u.c1 + v * u.c2)) * other
        whole = p.inertialMass * a + drag + p.gradeForce + roll + free
        grip = d.peak * (load / d.loadReference) ** -d.loadExponent * load
        r, n, eta, eff = d.radius, d.ratio, d.efficiency, d.inverter
        # Without torque at the motor the road turns all that turns with the wheels: what slows more than that brakes.
        turning = a / r
        turned = (d.rotorInertia * n * turning + d.dragTorque) * n / eta + d.wheelInertia * turning
        coasting = min(0, -turned / r)
        brakes = whole < coasting
        F = (coasting + g.share * (whole - coasting) if brakes else whole) - roll
        if brakes:
            F = max(F, -g.gripShare * grip)
        slip = self.slip_of(F / grip)
        fade = min(1, max(0, (v - g.fadeTo) / (g.fadeFrom - g.fadeTo)))
        limit = 0
        while True:
            for _ in range(PASSES if limit else 0):
                wheel, spin = (1 + slip) * v / r, (1 + slip) * a / r
                w = n * wheel
                T = -fade * min(g.torque, g.power / max(w, 1e-12)) if limit == 1 else self.torque_giving(-most - consumed, w)
                geared = T - d.rotorInertia * n * spin - d.dragTorque
                M = geared * n / eta if geared < 0 else geared * n * eta
                F = (M - d.wheelInertia * spin) / r - roll
                slip = self.slip_of(F / grip)
            wheel, spin = (1 + slip) * v / r, (1 + slip) * a / r
            w = n * wheel
            M = (F + roll) * r + d.wheelInertia * spin
            T = (M * eta / n if M < 0 else M / (eta * n)) + d.rotorInertia * n * spin + d.dragTorque
            both = T * w + self.loss(T, w)
            drawn = both * eff if both < 0 else both / eff
            if not brakes or limit == 2:
                break
            if limit == 0 and T < -fade * min(g.torque, g.power / max(w, 1e-12)):
                limit = 1
            elif drawn + consumed < -most:
                limit = 2
            else:
                break
        return [
            drawn + consumed,
            drawn - T * w,
            (eta - 1 if M < 0 else 1 / eta - 1) * M * wheel + d.dragTorque * w,
            d.wheelInertia * spin * wheel + d.rotorInertia * n * spin * w,
            F * slip * v,
            roll * r * wheel + free * v,
            drag * v,
            p.gradeForce * v,
            (F + roll - whole) * v,
        ]

    def rates(self, t, y, began, from_, rise):
        self.evaluations += 1
        p, f = self.p, self.f
        q, u1, u2, T = y[:4].tolist()
        E = p.series * curve(self.ocv, q) - u1 - u2
        warmth = math.exp(p.packActivation * (1 / T - 1 / 298.15))
        R = p.cellResistance * curve(self.ohm, q) * warmth + p.wiring
        warm = min(1, max(0, (T - f.coldNone) / (f.coldFull - f.coldNone)))
        most = max(0, min(f.maxCharge * warm, (f.maxVoltage - E) / R))
        powers = self.powers(from_ + rise * (t - began), rise, 0 if q >= 1 else most * (E + R * most))
        P = powers[0]
        I = 2 * P / (E + math.sqrt(max(0, E * E - 4 * R * P)))
        heat, polarised = R * I * I, []
        for V, (rate, ohm, siemens) in zip((u1, u2), self.pairs):
            heat += V * V * siemens / warmth
            polarised.append((ohm * I - V / warmth) * rate)
        return [-I / p.capacity, *polarised, (heat - p.packCooling * (T - p.air)) / p.packCapacity, *powers, heat]

    def __call__(self, method, tolerance):
        self.evaluations = 0
        y = np.array(self.start + [0.0] * len(self.names))
        absolute = tolerance * np.array(SCALES + [ENERGY_SCALE] * len(self.names))
        for i in range(len(self.speed) - 1):
            run = solve_ivp(
                self.rates,
                (i, i + 1),
                y,
                method=method,
                rtol=tolerance,
                atol=absolute,
                args=(i, self.speed[i], self.speed[i + 1] - self.speed[i]),
            )
            if run.status < 0:
                raise RuntimeError(run.message)
            y = run.y[:, -1]
        return {
            "energies": dict(zip(self.names, y[4:].tolist())),
            "charge": float(y[0]),
            "evaluations": self.evaluations,
        }


def main():
    drive = Driver(json.loads(pathlib.Path(sys.argv[1]).read_text()))
    for line in sys.stdin:
        request, method, tolerance, *count = line.split()
        if request == "solve":
            answer = drive(method, float(tolerance))
        else:
            start, used = time.perf_counter(), time.process_time()
            for _ in range(int(count[0])):
                drive(method, float(tolerance))
            answer = {"seconds": time.perf_counter() - start, "user": time.process_time() - used}
        print(json.dumps(answer), flush=True)


main()
