import type { AxleName } from '../../../src/model/car.ts';
import type { Mark } from '../../../src/runs/launch/marks.ts';
import { CLOSED_FORM, EXACT, printed } from '../check.ts';
import type { Check, Tolerance, Topic } from '../check.ts';
import { idealCar } from '../ideal.ts';
import type { Ideal } from '../ideal.ts';
import { coasting, passing } from '../launched.ts';
import type { Launched, Passing } from '../launched.ts';

const STANDARD = 9.80665;

/** N with which a car of constant power starts: the time up to its corner is below the digits asked for. */
const NEARLY_ALL = 1e8;

interface Case {
  readonly id: string;
  readonly what: string;
  readonly source?: string;
  readonly car: Ideal;
  readonly mark: Mark;
  readonly options?: Launched;
  /** Numbers to hold; m/s2 times are scaled by the g of the source where it is not the standard one. */
  readonly time?: number;
  readonly distance?: number;
  readonly speed?: number;
  readonly tolerance?: Tolerance;
}

const UNITS = { time: 's', distance: 'm', speed: 'm/s' } as const;

function checksOf(c: Case): Check[] {
  let memory: Passing | null = null;
  const run = (): Passing => (memory ??= passing(idealCar(c.car), c.mark, c.options));
  return (['time', 'distance', 'speed'] as const).flatMap(quantity => {
    const expected = c[quantity];
    if (expected === undefined) return [];
    return {
      id: `launch.${c.id}.${quantity}`,
      what: `${c.what}: ${quantity}`,
      source: c.source ?? CLOSED_FORM,
      expected,
      computed: () => run()[quantity],
      unit: UNITS[quantity],
      tolerance: c.tolerance ?? EXACT,
    };
  });
}

const forceAndDrag: Ideal = {
  mass: 1200,
  force: 3500,
  dragArea: 0.36 * 2,
  rolling: { c0: 0.012 },
};

const transferred = (axle: AxleName): Ideal => ({
  mass: 1100,
  axle,
  friction: 0.9,
  frontShare: 1.25 / 2.4,
  wheelbase: 2.4,
  cgHeight: 0.52,
});

const powerAndDrag: Ideal = { mass: 1250, force: NEARLY_ALL, power: 80e3, dragArea: 0.72 };

/** 0.441 N s2/m2 is 0.72 m2 at 1.225 kg/m3; the sources with another coefficient are scaled. */
const dragArea = (coefficient: number): number => (2 * coefficient) / 1.225;

const cases: readonly Case[] = [
  {
    id: 'force.100kmh',
    what: 'constant 3500 N, rolling 0.012, drag 0.441 v², 1200 kg, to 100 km/h',
    car: forceAndDrag,
    mark: '100_km_h',
    time: 10.2813389912,
    distance: 145.329136109,
  },
  {
    id: 'power.10ms',
    what: 'constant 80 kW, 1250 kg, 10 m/s to 100 km/h',
    car: { mass: 1250, power: 80e3 },
    mark: '100_km_h',
    options: { from: 10 },
    time: 5.24691358025,
    distance: 106.42432556,
  },
  {
    id: 'weakening.100kmh',
    what: 'constant 4000 N to 20 m/s, 80 kW there, falling in a straight line to 70 % at 60 m/s: A/v - B, 1250 kg, to 100 km/h',
    car: { mass: 1250, force: 4000, power: 80e3, powerAtTop: 0.7, maxSpeed: 60 / 0.3 },
    mark: '100_km_h',
    time: 9.246160929674446,
    distance: 134.82286518382648,
  },
  {
    id: 'grip.rear',
    what: 'grip-limited, rear drive, mu 0.9 with load transfer, to 60 km/h',
    car: transferred('rear'),
    mark: 'to',
    options: { to: 60 / 3.6 },
    time: 3.17245044038,
  },
  {
    id: 'grip.rear.60ft',
    what: 'the same over 60 ft',
    car: transferred('rear'),
    mark: '60_ft',
    time: 2.63858538585,
    speed: 13.8619732362,
  },
  {
    id: 'grip.front',
    what: 'grip-limited, front drive, to 60 km/h',
    car: transferred('front'),
    mark: 'to',
    options: { to: 60 / 3.6 },
    time: 4.33266088714,
  },
  {
    id: 'power.quarter',
    what: 'constant 120 kW, 1300 kg, quarter mile',
    car: { mass: 1300, force: NEARLY_ALL, power: 120e3 },
    mark: 'quarter_mile',
    time: 12.5419232507,
    speed: 48.1189358231,
  },
  {
    id: 'corner.base',
    what: '5000 N, then 90 kW, 1250 kg: the corner at 18 m/s',
    car: { mass: 1250, force: 5000, power: 90e3 },
    mark: 'to',
    options: { to: 18 },
    time: 4.5,
    distance: 40.5,
  },
  {
    id: 'corner.100kmh',
    what: '5000 N, then 90 kW, 1250 kg, to 100 km/h',
    car: { mass: 1250, force: 5000, power: 90e3 },
    mark: '100_km_h',
    time: 7.60836762689,
    distance: 112.729030128,
  },
  {
    id: 'corner.quarter',
    what: '5000 N, then 90 kW, 1250 kg, quarter mile',
    car: { mass: 1250, force: 5000, power: 90e3 },
    mark: 'quarter_mile',
    time: 15.5683672594,
    speed: 43.7932059269,
  },
  {
    id: 'power.drag',
    what: 'constant 80 kW, drag 0.441 v², 1250 kg, to 100 km/h',
    car: powerAndDrag,
    mark: '100_km_h',
    time: 6.3360913243,
    distance: 118.79778952,
  },
  {
    id: 'power.drag.rolling',
    what: 'the same with 150 N of rolling resistance',
    source: `${CLOSED_FORM} (quadrature)`,
    car: { ...powerAndDrag, rolling: { c0: 150 / (1250 * STANDARD) } },
    mark: '100_km_h',
    time: 6.58409272333,
    distance: 124.072109329,
  },
  {
    id: 'physics.power',
    what: 'least time at 92.4 kW, 1230 kg, to 29.1 m/s',
    source: 'answer on a physics help page',
    car: { mass: 1230, force: NEARLY_ALL, power: 92.4e3 },
    mark: 'to',
    options: { to: 29.1 },
    time: 5.64,
    tolerance: printed(2),
  },
  {
    id: 'tutoring.grip',
    what: '48 % of the weight on the driven rear wheels, mu 0.60 (scaled to g 9.8), to 105 km/h',
    source: 'question and answer on a tutoring site',
    car: { mass: 1500, friction: (0.6 * 9.8) / STANDARD, frontShare: 0.52 },
    mark: 'to',
    options: { to: 105 / 3.6 },
    time: 10.3,
    tolerance: printed(1),
  },
  {
    id: 'textbook.grip',
    what: 'all the weight on the driven wheels, mu 1, to 100 km/h',
    source: 'Vehicle Dynamics: Theory and Application, section 2.3, eq. 2.120: 27.78/g',
    car: { mass: 1500, friction: 1, frontShare: 0 },
    mark: '100_km_h',
    time: 2.83,
    tolerance: printed(2),
  },
];

/** Speed after 50 m with the grip of one axle; the project has no mark at 50 m, so the distance at the answer is held. */
function forum(axle: AxleName, kmh: number): Check {
  return {
    id: `launch.forum.${axle}`,
    what: `distance to ${kmh} km/h at the grip limit, mu 0.80 (scaled to g 9.81), 60 % of the weight in front, ${axle} drive`,
    source: `physics forum: ${kmh} km/h after 50 m`,
    expected: 50,
    computed: () =>
      passing(idealCar({ mass: 1500, axle, friction: (0.8 * 9.81) / STANDARD, frontShare: 0.6 }), 'to', {
        to: kmh / 3.6,
      }).distance,
    unit: 'm',
    // Half a unit in the last place of the speed, twice over for its square.
    tolerance: { relative: (2 * 0.05) / kmh },
  };
}

interface Coast {
  readonly id: string;
  readonly what: string;
  readonly car: Ideal;
  readonly from: number;
  readonly to: number;
  readonly time: number;
  readonly distance: number;
}

const coaster: Ideal = { mass: 1300, dragArea: dragArea(0.42), rolling: { c0: 150 / (1300 * STANDARD) } };
const POUND = 0.45359237;
const MPH = 0.44704;
const regulator: Ideal = {
  mass: 3500 * POUND,
  dragArea: dragArea((0.01474 * POUND * STANDARD) / MPH ** 2),
  rolling: { c0: 27.8 / 3500, c1: 0.382 / MPH / 3500 },
};

const coasts: readonly Coast[] = [
  {
    id: 'quadratic',
    what: 'coasting from 120 to 60 km/h against 150 N + 0.42 v², 1300 kg',
    car: coaster,
    from: 120 / 3.6,
    to: 60 / 3.6,
    time: 54.425807956,
    distance: 1297.41422324,
  },
  {
    id: 'rest',
    what: 'the same from 120 km/h to rest',
    car: coaster,
    from: 120 / 3.6,
    to: 0,
    time: 172.798551233,
    distance: 2187.85873321,
  },
  {
    id: 'three-terms',
    what: 'coasting from 70 to 30 mph against 27.8 lbf, 0.382 lbf/mph, 0.01474 lbf/mph², 3500 lb',
    car: regulator,
    from: 70 * MPH,
    to: 30 * MPH,
    time: 79.4296450329,
    distance: 1671.48611234,
  },
];

function coastChecks(c: Coast): Check[] {
  let memory: Passing | null = null;
  const run = (): Passing => (memory ??= coasting(idealCar(c.car), c.from, c.to));
  return (['time', 'distance'] as const).map(quantity => ({
    id: `coast.${c.id}.${quantity}`,
    what: `${c.what}: ${quantity}`,
    source: CLOSED_FORM,
    expected: c[quantity],
    computed: () => run()[quantity],
    unit: UNITS[quantity],
    tolerance: EXACT,
  }));
}

function quarterMile(power: number): number {
  return passing(idealCar({ mass: 1300, force: NEARLY_ALL, power }), 'quarter_mile').time;
}

/** One per cent more power takes a third of a per cent off the time over a fixed distance. */
const sensitivity: Check = {
  id: 'launch.sensitivity',
  what: 'change of the quarter-mile time for 1 % more power, over the time',
  source: 'worked problem on a physics homework page: dT = -(T/3)(dP/P)',
  expected: -1 / 3,
  computed: () => (quarterMile(120e3 * 1.0001) / quarterMile(120e3) - 1) / 1e-4,
  unit: '1',
  tolerance: { absolute: 1e-4 },
};

export const launched: Topic = {
  title: 'Launches and coasting, integrated',
  checks: [
    ...cases.flatMap(checksOf),
    forum('front', 78.1),
    forum('rear', 63.8),
    sensitivity,
    ...coasts.flatMap(coastChecks),
  ],
};
