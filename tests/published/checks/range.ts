import type { Schedule } from '../../../src/cycles/schedule.ts';
import { steadySchedule } from '../../../src/cycles/steady.ts';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { R } from '../../../src/runs/schedule/record.ts';
import type { Ledger } from '../../../src/runs/result.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import type { TravelRun } from '../../../src/runs/schedule/trip.ts';
import { energiesBetween, profile, trip } from '../../trips.ts';
import { CLOSED_FORM, EXACT, printed } from '../check.ts';
import type { Check, Tolerance, Topic } from '../check.ts';
import { idealCar, roadWithDensity } from '../ideal.ts';

const STANDARD = 9.80665;
const KMH = 1 / 3.6;
const POUND = 0.45359237;
const POUND_FORCE = POUND * STANDARD;
const MPH = 0.44704;
const WATT_HOUR = 3600;

const road = roadWithDensity();

function driven(car: Car, schedule: Schedule, on: Surroundings = road, untilEmpty = false): TravelRun {
  return travelOnce(car, trip(schedule), { surroundings: on, record: 1, untilEmpty, ...(untilEmpty && { charge: 1 }) });
}

/** W that a car draws at a steady speed. */
function power(car: Car, speed: number, on: Surroundings = road): number {
  return driven(car, steadySchedule(speed, 10), on).legs[0]!.energy / 10;
}

function closed(
  id: string,
  what: string,
  expected: number,
  unit: string,
  computed: () => number,
  tolerance: Tolerance = EXACT,
): Check {
  return { id: `range.${id}`, what, source: CLOSED_FORM, expected, computed, unit, tolerance };
}

/** 1250 kg, 150 N and 0.441 N s2/m2. */
const rolls = { c0: 150 / (1250 * STANDARD) };
const plain = idealCar({ mass: 1250, dragArea: 0.72, rolling: rolls });

/** Up at 1.2 m/s2 to 60 km/h, 500 m, down at 1.5 m/s2. */
function trapezoid(): TravelRun {
  const v = 60 * KMH;
  const up = v / 1.2;
  const cruised = up + 500 / v;
  return driven(
    plain,
    profile([
      [0, 0],
      [up, v],
      [cruised, v],
      [cruised + v / 1.5, 0],
    ]),
  );
}

const distances = (): readonly number[] => {
  const found = trapezoid().record!.column(R.distance);
  return [1, 2, 3].map(i => found[i]! - found[i - 1]!);
};

function trapezoids(): Check[] {
  const parts = ['acceleration', 'cruise', 'braking'] as const;
  const metres = [115.740740741, 500, 92.5925925926];
  const joules = [198_061.342593, 136_250, -154_050.925926];
  const what = 'stop to stop, 1250 kg, 150 N, 0.441 N s²/m²';
  return [
    ...parts.map((part, i) =>
      closed(`trapezoid.${part}.distance`, `${what}: distance, ${part}`, metres[i]!, 'm', () => distances()[i]!),
    ),
    ...parts.map((part, i) =>
      closed(`trapezoid.${part}.energy`, `${what}: energy at the wheels, ${part}`, joules[i]!, 'J', () => {
        return energiesBetween(trapezoid())[i]!;
      }),
    ),
    closed('trapezoid.net', `${what}: net energy`, 180_260.416667, 'J', () => trapezoid().legs[0]!.energy),
  ];
}

/** From 100 to 20 km/h by a drive with this efficiency and no other resistance. */
function slowed(efficiency: number): number {
  const car = idealCar({ mass: 1250, efficiency });
  const schedule = profile([
    [0, 100 * KMH],
    [12, 20 * KMH],
  ]);
  return driven(car, schedule).legs[0]!.returned;
}

/** 30 kWh at 400 V, a driveline of 85 % and 300 W of consumers. */
const cruiser: Car = (() => {
  const car = idealCar({
    mass: 1250,
    dragArea: 0.72,
    rolling: { c0: 0.012 },
    efficiency: 0.85,
    auxiliaries: 300,
    emf: 400,
  });
  return { ...car, pack: { ...car.pack, cell: { ...car.pack.cell, capacity: (30_000 * WATT_HOUR) / 400 } } };
})();

/** m/s of the least energy per distance, by golden section. */
function thriftiest(car: Car): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [2, 20];
  const spent = (speed: number): number => power(car, speed) / speed;
  for (let i = 0; i < 60; i++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (spent(a) < spent(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

function steadySpeeds(): Check[] {
  const what = '90 km/h, 1250 kg, Crr 0.012, CdA 0.72 m², driveline 0.85, 300 W';
  const whole = (): TravelRun => driven(cruiser, steadySchedule(25, 600), road, true);
  return [
    closed('steady.power', `${what}: power out of the pack`, 12_733.0808824, 'W', () => power(cruiser, 25)),
    closed('steady.consumption', `${what}: consumption`, 141.478676471, 'Wh/km', () => {
      const { legs, distance } = whole();
      return legs.reduce((sum, { energy }) => sum + energy, 0) / WATT_HOUR / (distance / 1000);
    }),
    closed('steady.range', `${what}: range of 30 kWh`, 212.046088841, 'km', () => whole().distance / 1000),
    closed(
      'steady.thriftiest',
      'speed of the least energy per distance, sought on the model: (aux eta / 2k)^(1/3)',
      23.8045348277,
      'km/h',
      () => thriftiest(cruiser) / KMH,
      // A minimum is flat: its place is only known to the root of the last digit.
      { relative: 1e-6 },
    ),
  ];
}

const threeTerms = (mass: number): Car => {
  const weight = mass * STANDARD;
  return idealCar({
    mass,
    dragArea: (2 * 0.01474 * POUND_FORCE) / MPH ** 2 / 1.225,
    rolling: { c0: (27.8 * POUND_FORCE) / weight, c1: (0.382 * POUND_FORCE) / MPH / weight },
  });
};

/** The textbook's car, its speed v = 0.29055 t² for 10 s by so many straight pieces. */
function textbook(quadratic: number, pieces = 4000): Ledger {
  const local = 9.81 / STANDARD;
  const car = idealCar({
    mass: 800,
    dragArea: 0.44,
    rolling: { c0: 0.008 * local, c2: quadratic * local },
    // So large a pack counts no joules; a small one does.
    emf: 400,
  });
  const small = { ...car, pack: { ...car.pack, cell: { ...car.pack.cell, capacity: 1e6 } } };
  const schedule = profile(
    Array.from({ length: pieces + 1 }, (_, i) => {
      const t = (10 * i) / pieces;
      return [t, 0.29055 * t * t] as const;
    }),
  );
  return travelLedger(driven(small, schedule, roadWithDensity(1.18)));
}

const lost = ({ out }: Ledger): number => out['drag']! + out['rolling resistance']!;

const TEXTBOOK =
  'Electric and Hybrid Vehicles: Design Fundamentals, example 2.1 (inputs as on a tutoring page, answers from memory)';

/** A drive unit that loses 1800 W, 25 W/K to the air, 20 kJ/K. */
function warmed(): number {
  const car = idealCar({ mass: 1000, losses: { fixed: 1800 } });
  const [drive] = car.drives;
  const heat = { capacity: 20_000, cooling: 25, derateAt: 500, derateRange: 50, continuousShare: 0.5 };
  const hot = { ...car, drives: [{ ...drive!, unit: { ...drive!.unit, heat } }] };
  return driven(hot, steadySchedule(20, 600)).follower.state().units[1] - 273.15;
}

const inertias = { wheelInertia: 0.9, rotorInertia: 0.045, ratio: 8.5, radius: 0.3 };

export const range: Topic = {
  title: 'Schedules, from the road back to the pack',
  checks: [
    ...trapezoids(),
    closed('regeneration.whole', 'kinetic energy from 100 to 20 km/h, 1250 kg', 462_962.962963, 'J', () => slowed(1)),
    closed('regeneration.part', 'the same through a drive that passes on 65 %', 83.5905349794, 'Wh', () => {
      return slowed(0.65) / WATT_HOUR;
    }),
    closed(
      'inertia',
      'energy to 60 km/h without resistance: 1250 kg that count as 1326.125 kg',
      0.5 * 1326.125 * (60 * KMH) ** 2,
      'J',
      () => {
        const car = idealCar({ mass: 1250, ...inertias });
        return driven(
          car,
          profile([
            [0, 0],
            [10, 60 * KMH],
          ]),
        ).legs[0]!.energy;
      },
    ),
    ...steadySpeeds(),
    closed('climb.power', 'power to hold 70 km/h on 10 %, 1250 kg, 150 N cos + 0.441 v²', 29_861.5989061, 'W', () => {
      return power(plain, 70 * KMH, { ...road, slope: 0.1 });
    }),
    closed('climb.schedule', 'the same with the slope in the schedule', 29_861.5989061, 'W', () => {
      const schedule = { ...steadySchedule(70 * KMH, 10), slope: Float64Array.of(0.1) };
      return driven(plain, schedule).legs[0]!.energy / 10;
    }),
    ...[
      ['head', 20, 411.736111111],
      ['tail', -20, 166.736111111],
    ].map(([name, wind, expected]) =>
      closed(
        `wind.${name}`,
        `power over speed at 90 km/h, 0.441 N s²/m², ${Math.abs(Number(wind))} km/h of ${name}wind`,
        Number(expected),
        'N',
        () => {
          const car = idealCar({ mass: 1250, dragArea: 0.72 });
          return power(car, 25, { ...road, wind: Number(wind) * KMH }) / 25;
        },
      ),
    ),
    closed(
      'three-terms.power',
      'road load 27.8 lbf, 0.382 lbf/mph, 0.01474 lbf/mph² at 60 mph, out of the pack',
      12_382.6744756,
      'W',
      () => power(threeTerms(3500 * POUND), 60 * MPH),
    ),
    {
      id: 'range.profile.motion',
      what: 'v = 0.29055 t² for 10 s, 800 kg: kinetic energy gained',
      source: TEXTBOOK,
      expected: 337_677,
      computed: () => textbook(1.6e-6).stored['motion of the car']!,
      unit: 'J',
      tolerance: printed(0),
    },
    {
      id: 'range.profile.loss',
      what: 'its drag and rolling resistance, coefficient 0.008',
      source: TEXTBOOK,
      expected: 15_180,
      computed: () => lost(textbook(0)),
      unit: 'J',
      // Printed in tens.
      tolerance: { absolute: 5 },
    },
    closed(
      'profile.loss.exact',
      'the same with 0.008 + 1.6e-6 v², and the 4000 straight pieces that stand for it',
      15_617.0,
      'J',
      () => lost(textbook(1.6e-6)),
      printed(1),
    ),
    closed('heat', 'drive unit after 600 s: 1800 W, 0.04 K/W, 20 kJ/K, air 25 °C', 62.9896082026, 'degC', warmed),
  ],
};
