import { CLOSED_FORM, EXACT, printed } from '../check.ts';
import type { Topic } from '../check.ts';
import { idealCar, roadWithDensity } from '../ideal.ts';
import { instant, steepestSlope } from '../instant.ts';

const COURSE = 'assignment solutions of an online course on electric vehicles, rho 1.2, g 9.81';
const HIGHWAY = 'solutions manual of Principles of Highway Engineering and Traffic Analysis, 4th ed., problem 2.31';
const STANDARD = 9.80665;
const POUND = 0.45359237;
const FOOT = 0.3048;
const POUND_FORCE = POUND * STANDARD;
/** kg/m3 of one slug/ft3. */
const SLUG_PER_CUBIC_FOOT = POUND_FORCE / FOOT / FOOT ** 3;
const MILE_PER_HOUR = 0.44704;

const course = idealCar({ mass: 600, dragArea: 0.45 * 1.6, rolling: { c0: 0.015 } });
const scooter = idealCar({ mass: 200, dragArea: 0.9 * 0.6 });
const hill = roadWithDensity(1.2, { slope: Math.tan((8 * Math.PI) / 180) });

/** The highway textbook's car, with its rolling rule f = 0.01 (1 + V/147), V in ft/s. */
const highway = idealCar({
  mass: 2000 * POUND,
  dragArea: 0.35 * 20 * FOOT ** 2,
  rolling: { c0: 0.01, c1: 0.01 / (147 * FOOT) },
});
const highwayRoad = roadWithDensity(0.002045 * SLUG_PER_CUBIC_FOOT);
const highwaySpeed = 70 * MILE_PER_HOUR;

const climber = idealCar({ mass: 1250, dragArea: 0.72, rolling: { c0: 150 / (1250 * STANDARD) } });
const climb = roadWithDensity(1.225, { slope: 0.1 });

/** F = A + B v + C v^2 in lbf and mph as a regulator files it. */
const threeTerms = (() => {
  const mass = 3500 * POUND;
  const [a, b, c] = [27.8, 0.382, 0.01474];
  return idealCar({
    mass,
    dragArea: (2 * c * POUND_FORCE) / MILE_PER_HOUR ** 2 / 1.225,
    rolling: { c0: (a * POUND_FORCE) / (mass * STANDARD), c1: (b * POUND_FORCE) / MILE_PER_HOUR / (mass * STANDARD) },
  });
})();

export const resistance: Topic = {
  title: 'Rolling resistance, drag and grade',
  checks: [
    {
      id: 'resistance.drag.30',
      what: 'drag at 30 km/h, Cd 0.45, 1.6 m²',
      source: COURSE,
      expected: 30,
      computed: () => instant(course, roadWithDensity(1.2), 30 / 3.6).drag,
      unit: 'N',
      tolerance: { relative: 1e-9 },
    },
    {
      id: 'resistance.drag.80',
      what: 'drag at 80 km/h, Cd 0.45, 1.6 m²',
      source: COURSE,
      expected: 213.33,
      computed: () => instant(course, roadWithDensity(1.2), 80 / 3.6).drag,
      unit: 'N',
      tolerance: printed(2),
    },
    {
      id: 'resistance.drag.scooter',
      what: 'drag at 80 km/h, Cd 0.9, 0.6 m²',
      source: COURSE,
      expected: 160,
      computed: () => instant(scooter, roadWithDensity(1.2), 80 / 3.6).drag,
      unit: 'N',
      tolerance: { relative: 1e-9 },
    },
    {
      id: 'resistance.slope.course',
      what: 'slope force on 8°, 600 kg',
      source: COURSE,
      expected: 819.17,
      computed: () => (instant(course, hill, 10).power.grade / 10 / STANDARD) * 9.81,
      unit: 'N',
      tolerance: printed(2),
    },
    {
      id: 'resistance.rolling.course',
      what: 'rolling resistance on 8°, 600 kg, coefficient 0.015',
      source: COURSE,
      expected: 87.43,
      computed: () => (instant(course, hill, 10).power.rolling / 10 / STANDARD) * 9.81,
      unit: 'N',
      tolerance: printed(2),
    },
    {
      id: 'resistance.headwind.force',
      what: 'drag at 120 km/h against 10 km/h of wind, Cd 0.3, 3 m²',
      source: 'university assignment sheet with answers, rho 1.25',
      expected: 733.5,
      computed: () =>
        instant(idealCar({ mass: 1000, dragArea: 0.9 }), roadWithDensity(1.25, { wind: 10 / 3.6 }), 120 / 3.6).drag,
      unit: 'N',
      tolerance: printed(1),
    },
    {
      id: 'resistance.headwind.power',
      what: 'power of the same drag, at the speed over ground',
      source: 'university assignment sheet with answers, rho 1.25',
      expected: 24_450,
      computed: () =>
        instant(idealCar({ mass: 1000, dragArea: 0.9 }), roadWithDensity(1.25, { wind: 10 / 3.6 }), 120 / 3.6).power
          .drag,
      unit: 'W',
      tolerance: { absolute: 5 },
    },
    {
      id: 'resistance.wind.head',
      what: 'drag at 90 km/h against 20 km/h of wind, 0.441 N s²/m²',
      source: CLOSED_FORM,
      expected: 411.736111111,
      computed: () =>
        instant(idealCar({ mass: 1250, dragArea: 0.72 }), roadWithDensity(1.225, { wind: 20 / 3.6 }), 25).drag,
      unit: 'N',
      tolerance: EXACT,
    },
    {
      id: 'resistance.wind.tail',
      what: 'drag at 90 km/h with 20 km/h of wind behind',
      source: CLOSED_FORM,
      expected: 166.736111111,
      computed: () =>
        instant(idealCar({ mass: 1250, dragArea: 0.72 }), roadWithDensity(1.225, { wind: -20 / 3.6 }), 25).drag,
      unit: 'N',
      tolerance: EXACT,
    },
    {
      id: 'resistance.highway.drag',
      what: 'aerodynamic resistance at 70 mph, Cd 0.35, 20 ft²',
      source: HIGHWAY,
      expected: 75.44,
      computed: () => instant(highway, highwayRoad, highwaySpeed).drag / POUND_FORCE,
      unit: 'lbf',
      // The source rounds 70 mph to 102.7 ft/s.
      tolerance: { absolute: 0.08 },
    },
    {
      id: 'resistance.highway.rolling',
      what: 'rolling resistance at 70 mph, linear in speed, 2000 lb',
      source: HIGHWAY,
      expected: 33.97,
      computed: () => instant(highway, highwayRoad, highwaySpeed).power.rolling / highwaySpeed / POUND_FORCE,
      unit: 'lbf',
      // The source rounds 70 mph to 102.7 ft/s.
      tolerance: { absolute: 0.01 },
    },
    {
      id: 'resistance.highway.sum',
      what: 'tractive effort on a 5 % grade, the grade as its small-angle 100 lbf',
      source: HIGHWAY,
      expected: 209.41,
      computed: () => {
        const { drag, power } = instant(highway, { ...highwayRoad, slope: 0.05 }, highwaySpeed);
        return (drag + (power.rolling + power.grade) / highwaySpeed) / POUND_FORCE;
      },
      unit: 'lbf',
      // Exact trigonometry gives 0.12 lbf less for the grade and 0.04 lbf less for rolling.
      tolerance: { absolute: 0.25 },
    },
    {
      id: 'resistance.grade.power',
      what: 'grade that 110 hp climb at 60 mph, 2500 lb, 40 lbf of other resistance',
      source: 'worked problem on a physics page',
      expected: 15.0,
      computed: () => {
        const mass = 2500 * POUND;
        const v = 60 * MILE_PER_HOUR;
        const drag = (2 * 40 * POUND_FORCE) / (1.225 * v * v);
        const car = idealCar({ mass, dragArea: drag, power: 110 * 550 * FOOT * POUND_FORCE });
        return (Math.atan(steepestSlope(car, roadWithDensity(), v)) * 180) / Math.PI;
      },
      unit: 'deg',
      tolerance: printed(1),
    },
    {
      id: 'resistance.climb.force',
      what: 'force to hold 70 km/h on 10 %, 1250 kg, 150 N cos + 0.441 v²',
      source: CLOSED_FORM,
      expected: 1535.73937231,
      computed: () => -1250 * instant(climber, climb, 70 / 3.6, 0).acceleration,
      unit: 'N',
      tolerance: EXACT,
    },
    {
      id: 'resistance.climb.power',
      what: 'power to hold it, as the ledger books it',
      source: CLOSED_FORM,
      expected: 29_861.5989061,
      computed: () => {
        const { power } = instant(climber, climb, 70 / 3.6, 0);
        return power.rolling + power.drag + power.grade;
      },
      unit: 'W',
      tolerance: EXACT,
    },
    {
      id: 'resistance.three-terms.force',
      what: 'road load 27.8 lbf, 0.382 lbf/mph, 0.01474 lbf/mph² at 60 mph',
      source: CLOSED_FORM,
      expected: 461.654232118,
      computed: () => -3500 * POUND * instant(threeTerms, roadWithDensity(), 60 * MILE_PER_HOUR, 0).acceleration,
      unit: 'N',
      tolerance: EXACT,
    },
    {
      id: 'resistance.three-terms.power',
      what: 'power of that road load, as the ledger books it',
      source: CLOSED_FORM,
      expected: 12_382.6744756,
      computed: () => {
        const { power } = instant(threeTerms, roadWithDensity(), 60 * MILE_PER_HOUR, 0);
        return power.rolling + power.drag;
      },
      unit: 'W',
      tolerance: EXACT,
    },
  ],
};
