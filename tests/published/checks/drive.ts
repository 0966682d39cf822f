import { CLOSED_FORM, EXACT, printed } from '../check.ts';
import type { Check, Topic } from '../check.ts';
import { idealCar, roadWithDensity } from '../ideal.ts';
import { instant, steepestSlope } from '../instant.ts';

const road = roadWithDensity();
const STANDARD = 9.80665;
const COURSE = 'course "Electric Vehicles - Part 1", week 4 answers';
const TEXTBOOK = 'Larminie & Lowry, Electric Vehicle Technology Explained, constants of eq. 7.23; values worked out';
const HIGHWAY = 'Principles of Highway Engineering and Traffic Analysis, problem 2.6';
const POUND = 0.45359237;
const FOOT = 0.3048;
const POUND_FORCE = POUND * STANDARD;

function gearing(id: string, source: string, motor: number, ratio: number, radius: number, kmh: number): Check {
  return {
    id: `drive.gearing.${id}`,
    what: `car speed at ${Math.round(motor * 10) / 10} rad/s, ratio ${ratio}, radius ${radius} m`,
    source,
    expected: kmh,
    computed: () => {
      const car = idealCar({ mass: 1000, ratio, radius, force: 1000 });
      return (motor / (instant(car, road, 10).motorSpeed / 10)) * 3.6;
    },
    unit: 'km/h',
    tolerance: EXACT,
  };
}

/** The textbook's motor at one torque and speed. */
function motorAt(torque: number, speed: number) {
  const car = idealCar({
    mass: 1e6,
    radius: 1,
    force: torque,
    losses: { copper: 0.3, iron: 0.01, windage: 5e-6, fixed: 600 },
  });
  return instant(car, road, speed);
}

function loss(torque: number, speed: number, watt: number, efficiency: number): Check[] {
  const name = `${torque}Nm.${speed}`;
  return [
    {
      id: `drive.loss.${name}`,
      what: `loss of the textbook motor at ${torque} N m, ${speed} rad/s`,
      source: TEXTBOOK,
      expected: watt,
      computed: () => motorAt(torque, speed).power.unitHeat,
      unit: 'W',
      tolerance: EXACT,
    },
    {
      id: `drive.efficiency.${name}`,
      what: `its efficiency there`,
      source: TEXTBOOK,
      expected: efficiency,
      computed: () => (torque * speed) / motorAt(torque, speed).busPower,
      unit: '1',
      tolerance: EXACT,
    },
  ];
}

/** Torque with the best efficiency at a speed, by golden section on the model. */
function bestTorque(speed: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [10, 200];
  const waste = (torque: number): number => motorAt(torque, speed).busPower / (torque * speed);
  for (let i = 0; i < 60; i++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (waste(a) < waste(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

const course = idealCar({ mass: 1262, ratio: 15 * 0.3, radius: 0.3, force: 3000 });

/** Problem 2.6, 3200 lb, at 3600 rpm with 3.5 % slip: the car speed it prints. */
const grade = {
  speed: 132.63 * FOOT,
  road: roadWithDensity((0.002378 * POUND_FORCE) / FOOT / FOOT ** 3),
  car: (efficiency: number) =>
    idealCar({
      mass: 3200 * POUND,
      dragArea: 0.35 * 25 * FOOT ** 2,
      rolling: { c0: 0.01, c1: 0.01 / 147 / FOOT },
      ratio: 3.2,
      radius: (14 / 12) * FOOT,
      // Torque at the motor shaft is force times radius over ratio, before the efficiency.
      force: (210 * FOOT * POUND_FORCE * 3.2) / ((14 / 12) * FOOT),
      efficiency,
    }),
};

export const drive: Topic = {
  title: 'Drive unit and gears',
  checks: [
    gearing('closed', `${CLOSED_FORM}: 8000 rpm`, (8000 * 2 * Math.PI) / 60, 8.5, 0.3, 106.444551086),
    gearing('course.10', 'same online course on electric vehicles', 750, 10, 0.2, 54),
    gearing('course.5', 'same online course on electric vehicles', 900, 5, 0.15, 97.2),
    {
      id: 'drive.effort.course',
      what: 'tractive effort of 200 N m with G/r = 15 1/m',
      source: COURSE,
      expected: 3000,
      computed: () =>
        instant(idealCar({ mass: 1262, ratio: 4.5, radius: 0.3, force: (200 * 4.5) / 0.3 }), road, 10).traction,
      unit: 'N',
      tolerance: EXACT,
    },
    {
      id: 'drive.grade.course',
      what: 'grade that 3000 N hold with 1262 kg, no rolling resistance',
      source: `${COURSE}, g 9.8`,
      expected: 0.25,
      // The mass is printed in whole kilograms, and the source's g is 9.8.
      computed: () => steepestSlope(idealCar({ mass: (1262 * 9.8) / STANDARD, force: 3000 }), road, 10),
      unit: '1',
      tolerance: { absolute: 0.0005 },
    },
    {
      id: 'drive.acceleration.course',
      what: 'acceleration from rest of that car, coefficient 0.01, rotating mass 5 %',
      source: COURSE,
      expected: 2.2,
      computed: () => {
        // Rotating mass of 5 % as the inertia of two undriven wheels.
        const inertia = (0.05 * 1262 * 0.3 ** 2) / 4;
        const car = idealCar({ mass: 1262, force: 3000, wheelInertia: inertia, rolling: { c0: 0.01 } });
        return instant(car, road, 0).acceleration;
      },
      unit: 'm/s2',
      tolerance: printed(1),
    },
    {
      id: 'drive.power.course',
      what: 'shaft power at 5639 rpm',
      source: COURSE,
      expected: 118.1,
      computed: () => {
        const speed = (5639 * 2 * Math.PI) / 60;
        return instant(course, road, speed / 15).busPower / 1000;
      },
      unit: 'kW',
      tolerance: printed(1),
    },
    {
      id: 'drive.grade.highway',
      what: 'steepest grade at peak torque, 3200 lb, efficiency 0.93, small-angle',
      source: `${HIGHWAY} (inputs), as read on a tutoring site`,
      expected: 0.0912,
      // What is left of the force per weight is the small-angle grade, without rotating parts the acceleration over g.
      computed: () => instant(grade.car(0.93), grade.road, grade.speed).acceleration / STANDARD,
      unit: '1',
      tolerance: { absolute: 0.0002 },
    },
    {
      id: 'drive.inertia',
      what: 'equivalent mass: 1250 kg, four wheels 0.9 kg m² at 0.30 m, rotor 0.045 kg m², ratio 8.5',
      source: `${CLOSED_FORM}: m + sum J / r² + J G² / r²`,
      expected: 1326.125,
      computed: () => {
        const car = idealCar({
          mass: 1250,
          ratio: 8.5,
          radius: 0.3,
          wheelInertia: 0.9,
          rotorInertia: 0.045,
          force: 3000,
        });
        return 3000 / instant(car, road, 10).acceleration;
      },
      unit: 'kg',
      tolerance: EXACT,
    },
    ...loss(40, 300, 1218.0, 0.907852927826),
    ...loss(100, 400, 3924.0, 0.910663873964),
    ...loss(140, 700, 8202.0, 0.922769816011),
    {
      id: 'drive.loss.best',
      what: 'torque of best efficiency at 400 rad/s, sought on the model',
      source: `${TEXTBOOK}: sqrt((ki w + kw w³ + C) / kc)`,
      expected: 55.497747702,
      computed: () => bestTorque(400),
      unit: 'N m',
      // A minimum is flat: its place is only known to the root of the last digit.
      tolerance: { relative: 1e-6 },
    },
    {
      id: 'drive.power.accelerating',
      what: 'acceleration that 54 853 W give at 82 km/h against 300 N + 1.8 v², weight 12 000 N',
      source: 'worked problem on a homework page, g 9.81',
      expected: 0.96,
      computed: () => {
        const mass = 12_000 / 9.81;
        const car = idealCar({
          mass,
          power: 54_853,
          dragArea: (2 * 1.8) / 1.225,
          rolling: { c0: 300 / (mass * STANDARD) },
        });
        return instant(car, road, 82 / 3.6).acceleration;
      },
      unit: 'm/s2',
      tolerance: { absolute: 1e-4 },
    },
  ],
};
