"""The launch of bench/launch.ts by SciPy's solve_ivp: the same equations, limits and switches in plain Python. Every mark is
an event, every switch a terminal one after which the integration is started again; the energies are more states that do not
steer the step. Answers the same requests.

Methods: RK45, DOP853, LSODA.

Run: /usr/bin/python3 bench/peer/scipy_launch.py PARAMETERS.json     (the answer to `parameters`)
"""
import json
import math
import pathlib
import sys
import time
from types import SimpleNamespace

import numpy as np
from scipy.integrate import solve_ivp

LONGEST = 300.0
LONGEST_STEP = 1.0
FAR = 1e30
SPEED, CHARGE, RC = 0, 2, 3
PEAKS = (
    "peak_acceleration",
    "peak_wheel_torque",
    "peak_shaft_torque",
    "peak_motor_torque",
    "peak_motor_power",
    "peak_motor_speed",
    "peak_slip",
    "peak_pack_current",
    "peak_pack_power",
    "lowest_pack_voltage",
)


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


class Plant:
    """The plant of src/model/plant.ts for cars without a torque table; the names are the same."""

    def __init__(self, car):
        layout, block = car["layout"], car["block"]
        named = lambda places, offset: SimpleNamespace(**{name: block[offset + at] for name, at in places.items()})
        names = {name: at for name, at in layout["P"].items() if name not in ("pair0", "axle0")}
        self.p = named(names, 0)
        front = layout["P"]["axle0"]
        axles = [named(layout["A"], front), named(layout["A"], front + layout["AXLE_SIZE"])]
        self.d, self.u = axles if axles[0].driven == 1 else axles[::-1]
        self.L, self.GRIP = SimpleNamespace(**layout["L"]), layout["GRIP"]
        self.limits = range(1, len(layout["L"]) + 1)
        self.pair0 = layout["P"]["pair0"]
        self.pairs = [tuple(block[self.pair0 + 2 * i : self.pair0 + 2 * i + 2]) for i in range(int(self.p.pairs))]
        self.records = {name: np.reshape(car[name], (-1, 5)).tolist() for name in ("ocv", "resistance")}
        self.states = len(car["start"])
        self.wheel_inertia = car["wheelInertia"]
        self.reset()

    def reset(self):
        self.load, self.stretch, self.evaluations = self.d.staticLoad, 0.0, 0

    def motor_loss(self, T, w):
        d = self.d
        return d.copper * T * T + w * (d.iron + d.windage * w * w) + d.fixed

    def lowest_voltage(self):
        return max(self.p.minVoltage, 0.5 * self.emf)

    def torque_from_power(self, power):
        d, w = self.d, self.w
        useful = power * d.inverter - w * (d.iron + d.windage * w * w) - d.fixed
        if useful <= 0:
            return 0.0, 0.0
        T = 2 * useful / (w + math.sqrt(w * w + 4 * d.copper * useful))
        return T, -(T + d.iron + 3 * d.windage * w * w) / (2 * d.copper * T + w)

    def torque_at_sag(self):
        d, w, R = self.d, self.w, self.R
        if w < 1e-9:
            return FAR, 0.0
        beta = d.peakPower / d.referenceVoltage
        alpha = beta / w
        fixed = w * (d.iron + d.windage * w * w) + d.fixed
        a = 1 + R * d.copper * alpha * alpha / d.inverter
        b = self.emf - R * beta / d.inverter
        c = R * (fixed / d.inverter + self.p.auxiliaryPower)
        V = (b + math.sqrt(max(0.0, b * b - 4 * a * c))) / (2 * a)
        lowest = self.lowest_voltage()
        T = alpha * (2 * lowest - V if V < lowest else V)
        return T, -T / w

    def limit(self, l):
        """Torque that limit l allows at the present motor speed, and its slope."""
        d, p, L, w = self.d, self.p, self.L, self.w
        if l == L.torque:
            return d.peakTorque, 0.0
        if l == L.power:
            return (FAR, 0.0) if w < 1e-9 else (d.peakPower / w, -d.peakPower / (w * w))
        if l == L.busVoltage:
            return self.torque_at_sag()
        if l == L.speed:
            return (FAR, 0.0) if w < d.taperFrom else (d.taperSlope * (d.maxSpeed - w), -d.taperSlope)
        if l == L.minVoltage:
            if not self.R > 0:
                return FAR, 0.0
            V = self.lowest_voltage()
            return self.torque_from_power(V * (self.emf - V) / self.R - p.auxiliaryPower)
        if l == L.current:
            current = p.maxCurrent
            V = self.emf - self.R * current
            half = 0.5 * self.emf
            power = 2 * half * half / self.R - V * current if V < half else V * current
            return self.torque_from_power(power - p.auxiliaryPower)
        return (d.shaftTorque if l == L.shaft else d.pedalTorque), 0.0

    def friction(self, N):
        return self.d.peak * (N / self.d.loadReference) ** -self.d.loadExponent

    def at_grip(self, v):
        d, p, cu, N0 = self.d, self.p, self.rolling_u, self.unloaded_d
        k, q, r = d.sign * p.transfer, d.loadExponent, d.radius
        resist = cu * self.unloaded_u + self.drag + p.gradeForce
        N = max(self.load, 0.1 * N0)
        for _ in range(30):
            g = d.maxShare * self.friction(N)
            tangent = (1 - q) * g
            a = (tangent * N0 + q * g * N - resist) / (p.inertialMass - (tangent + cu) * k)
            new = N0 + k * a
            F = tangent * new + q * g * N
            change, N = new - N, new
            if q == 0 or abs(change) < 1e-6 * N:
                break
            if not N > 0:
                N = 0.1 * N0
        self.a, self.load, self.load_u = a, N, self.unloaded_u - k * a
        self.F, self.grip = F, F / d.maxShare
        self.stretch, self.slip = d.maxStretch, d.slipAtPeak * d.maxStretch
        self.w = d.ratio * v * (1 + self.slip) / r
        wheel = (F + self.rolling_d * N) * r + d.inertia * (1 + self.slip) * a / r
        self.T = wheel / (d.efficiency * d.ratio) + d.dragTorque

    def at_limit(self, l, v):
        d, p, cd, cu, N0 = self.d, self.p, self.rolling_d, self.rolling_u, self.unloaded_d
        k, q, r = d.sign * p.transfer, d.loadExponent, d.radius
        gear, spin, per_slip = d.efficiency * d.ratio / r, d.inertia / (r * r), d.ratio * v / r
        resist = cd * N0 + cu * self.unloaded_u + self.drag + p.gradeForce
        inertia = p.inertialMass + (cd - cu) * k
        z, low, high, settled = self.stretch, -1.0, math.inf, False
        for _ in range(30):
            slip = z * d.slipAtPeak
            self.w = per_slip * (1 + slip)
            T, slope = self.limit(l)
            wheel = gear * (T - d.dragTorque)
            own = inertia + spin * (1 + slip)
            a = (wheel - resist) / own
            N = N0 + k * a
            F = wheel - cd * N - spin * (1 + slip) * a
            G = self.friction(N) * N
            if settled:
                break
            x = d.stiffness * z
            phi = d.shape * math.atan(x)
            sigma = math.sin(phi) if z < 1 else 1.0
            sigma_slope = math.cos(phi) * d.shape * d.stiffness / (1 + x * x) if z < 1 else 0.0
            dA = (gear * slope * per_slip * d.slipAtPeak - spin * d.slipAtPeak * a) / own
            dF = (p.inertialMass - cu * k) * dA
            residual = G * sigma - F
            if residual > 0:
                high = z
            else:
                low = z
            steep = G * sigma_slope + (1 - q) * G * sigma * k * dA / N - dF
            new = z - residual / steep if steep != 0 else math.nan
            if slope == 0 and high == math.inf and not new < 1:
                new = 1.0
            elif not low <= new <= high:
                new = 2 * abs(low) + 1 if high == math.inf else 0.5 * (low + high)
            settled = abs(new - z) < 1e-7 * (1 + z) or d.slipAtPeak == 0
            z = new
        self.a, self.load, self.load_u = a, N, self.unloaded_u - k * a
        self.F, self.grip, self.stretch, self.slip = F, G, z, slip
        self.T = self.available = T

    def evaluate(self, mode, y):
        """Everything at a state but the rates."""
        self.evaluations += 1
        p, d, u = self.p, self.d, self.u
        v = y[SPEED]
        self.open = p.series * curve(self.records["ocv"], y[CHARGE])
        self.emf = self.open - sum(y[RC : self.states])
        self.R = p.cellResistance * curve(self.records["resistance"], y[CHARGE]) + p.wiring
        air = v + p.wind
        self.drag = drag = p.halfRhoCdA * air * abs(air)
        self.unloaded_d = d.staticLoad + d.sign * p.dragMoment * drag - d.liftFactor * air * air
        self.unloaded_u = u.staticLoad + u.sign * p.dragMoment * drag - u.liftFactor * air * air
        self.rolling_d = d.c0 + v * (d.c1 + v * d.c2)
        self.rolling_u = u.c0 + v * (u.c1 + v * u.c2)
        if mode >= self.GRIP:
            self.at_grip(v)
            self.available = self.limit(mode - self.GRIP)[0]
        else:
            self.at_limit(mode, v)
        self.bus = (self.T * self.w + self.motor_loss(self.T, self.w)) / d.inverter + p.auxiliaryPower
        self.current = 2 * self.bus / (self.emf + math.sqrt(self.emf * self.emf - 4 * self.R * self.bus))

    def rates(self, mode, y):
        y = y.tolist()
        self.evaluate(mode, y)
        p, d = self.p, self.d
        v, a, T, w, r, slip, current = y[SPEED], self.a, self.T, self.w, d.radius, self.slip, self.current
        heat = self.R * current * current
        out = [a, v, -current / p.capacity]
        for (R1, tau), V1 in zip(self.pairs, y[RC:]):
            out.append((R1 * current - V1) / tau)
            heat += V1 * V1 / R1
        turning, spin = (1 + slip) * v / r, (1 + slip) * a / r
        geared = T - d.rotorInertia * d.ratio * spin - d.dragTorque
        out += [
            self.open * current,
            heat,
            (self.motor_loss(T, w) + (1 - d.inverter) * T * w) / d.inverter,
            ((1 - d.efficiency) * geared + d.dragTorque) * w,
            (d.rotorInertia * d.ratio**2 + d.wheelInertia) * spin * turning,
            self.F * v * slip,
            self.rolling_d * self.load * r * turning + self.rolling_u * self.load_u * v,
            self.drag * v,
            p.gradeForce * v,
            p.auxiliaryPower,
            (self.available - T) * w,
        ]
        return out

    def guards(self, mode, y):
        self.evaluate(mode, y.tolist())
        d, scale = self.d, 1 / self.d.peakTorque
        T, active = self.available, mode % self.GRIP
        if mode >= self.GRIP:
            first = (T - self.T) * scale
        elif self.limit(active)[1] == 0:
            first = d.maxShare - self.F / self.grip
        else:
            first = d.maxStretch - self.stretch
        return [first] + [math.inf if l == active else (self.limit(l)[0] - T) * scale for l in self.limits]

    def switched(self, mode, fired):
        if fired > 0:
            return fired + (self.GRIP if mode >= self.GRIP else 0)
        if mode < self.GRIP:
            return mode + self.GRIP
        self.stretch = self.d.maxStretch
        return mode - self.GRIP

    def peaks(self, mode, y):
        """In the order of PEAKS, the voltage with its sign turned."""
        self.evaluate(mode, y.tolist())
        r = self.d.radius
        moment = (self.F + self.rolling_d * self.load) * r
        return (
            self.a,
            moment,
            moment + self.wheel_inertia * (1 + self.slip) * self.a / r,
            self.T,
            self.T * self.w,
            self.w,
            self.slip,
            self.current,
            self.bus,
            -(self.emf - self.R * self.current),
        )


def level_event(level):
    state, value = level["state"], level["value"]

    def distance(_, y):
        return y[state] - value

    distance.direction, distance.terminal = 1, level["stop"]
    return distance


class Launcher:
    def __init__(self, car):
        self.plant, self.car = Plant(car), car
        self.levels = [(level["name"], level_event(level)) for level in car["levels"]]
        self.start = np.array(car["start"] + [0.0] * len(car["layout"]["QUADRATURES"]))
        # With these the energies count for nothing in the mean square that is held against 1.
        self.scales = np.array([*car["scales"][: self.plant.states]] + [math.inf] * (self.start.size - self.plant.states))

    def __call__(self, method, tolerance):
        plant = self.plant
        plant.reset()
        t, y, mode = 0.0, self.start, self.car["mode"]
        times, peaks, steps = {}, None, 0
        # LSODA wants finite numbers.
        absolute = np.minimum(tolerance * self.scales, 1e30)
        while t < LONGEST:
            open_levels = [(name, event) for name, event in self.levels if name not in times]

            # All guards in one event: the least of them. Which one it was is seen at the root.
            def least(_, y, mode=mode):
                return min(plant.guards(mode, y))

            least.direction, least.terminal = -1, True
            run = solve_ivp(
                lambda _, y, mode=mode: plant.rates(mode, y),
                (t, LONGEST),
                y,
                method=method,
                rtol=tolerance,
                atol=absolute,
                max_step=LONGEST_STEP,
                events=[least] + [event for _, event in open_levels],
            )
            if run.status < 0:
                raise RuntimeError(run.message)
            steps += len(run.t) - 1
            for (name, _), passed in zip(open_levels, run.t_events[1:]):
                if len(passed) > 0:
                    times[name] = float(passed[0])
            for column in run.y.T:
                here = plant.peaks(mode, column)
                peaks = here if peaks is None else tuple(map(max, peaks, here))
            t, y = float(run.t[-1]), run.y[:, -1]
            if len(run.t_events[0]) == 0:
                break
            guards = plant.guards(mode, y)
            mode = plant.switched(mode, guards.index(min(guards)))
        return {
            "times": times,
            "energies": dict(zip(self.car["layout"]["QUADRATURES"], y[plant.states :].tolist())),
            "peaks": {**dict(zip(PEAKS, peaks)), "lowest_pack_voltage": -peaks[-1]},
            "evaluations": plant.evaluations,
            "steps": steps,
        }


def main():
    launch = Launcher(json.loads(pathlib.Path(sys.argv[1]).read_text()))
    for line in sys.stdin:
        request, method, tolerance, *count = line.split()
        if request == "solve":
            answer = launch(method, float(tolerance))
        else:
            start, used = time.perf_counter(), time.process_time()
            for _ in range(int(count[0])):
                launch(method, float(tolerance))
            answer = {"seconds": time.perf_counter() - start, "user": time.process_time() - used}
        print(json.dumps(answer), flush=True)


main()
