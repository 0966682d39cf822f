import type { AxleName } from '../../../src/model/car.ts';
import { CLOSED_FORM, EXACT, printed } from '../check.ts';
import type { Check, Topic } from '../check.ts';
import { idealCar, roadWithDensity } from '../ideal.ts';
import { instant, steepestSlope } from '../instant.ts';

const road = roadWithDensity();
/** m/s2: the project computes with standard gravity; sources that do not are scaled to theirs. */
const STANDARD = 9.80665;
const RAD = 180 / Math.PI;

/** Closed-form case: 1100 kg, wheelbase 2.40 m, centre of gravity 1.25 m ahead of the rear axle and 0.52 m high, mu 0.9. */
const transferCase = (axle: AxleName, rolling = 0) =>
  idealCar({
    mass: 1100,
    axle,
    friction: 0.9,
    frontShare: 1.25 / 2.4,
    wheelbase: 2.4,
    cgHeight: 0.52,
    rolling: { c0: 0 },
    rollingUndriven: { c0: rolling },
  });

function transfer(
  axle: AxleName,
  quantity: 'acceleration' | 'frontLoad' | 'rearLoad',
  expected: number,
  rolling = 0,
): Check {
  const suffix = rolling === 0 ? '' : '.rolling';
  return {
    id: `traction.transfer.${axle}.${quantity}${suffix}`,
    what: `grip-limited ${axle} drive, ${quantity === 'acceleration' ? quantity : quantity === 'frontLoad' ? 'front axle load' : 'rear axle load'}${
      rolling === 0 ? '' : ', rolling resistance at the undriven axle'
    }`,
    source: `${CLOSED_FORM}: a = g mu share / (1 -+ mu h/L) with load transfer m a h/L`,
    expected,
    computed: () => instant(transferCase(axle, rolling), road, 5)[quantity],
    unit: quantity === 'acceleration' ? 'm/s2' : 'N',
    tolerance: { relative: 1e-9 },
  };
}

function slides(axle: AxleName, expected: number): Check {
  return {
    id: `traction.slides.${axle}`,
    what: `greatest acceleration, ${axle} drive, mu 0.7`,
    source: 'lecture slides "Vehicle Acceleration - Effect of Load Transfer" (2023), inputs; g 9.81',
    expected,
    computed: () => {
      const car = idealCar({ mass: 1800, axle, friction: 0.7, frontShare: 0.5, wheelbase: 2.6, cgHeight: 0.7 });
      return (instant(car, road, 5).acceleration / STANDARD) * 9.81;
    },
    unit: 'm/s2',
    tolerance: printed(3),
  };
}

function grade(axle: AxleName, expected: number): Check {
  return {
    id: `traction.grade.statics.${axle}`,
    what: `steepest grade at constant speed, ${axle} drive, mu 0.5`,
    source: 'statics textbook problem as worked through on a physics forum, answers checked again',
    expected,
    computed: () => {
      const car = idealCar({
        mass: 15_000 / STANDARD,
        axle,
        friction: 0.5,
        frontShare: 1 - 0.875 / 2.675,
        wheelbase: 2.675,
        cgHeight: 0.475,
      });
      return Math.atan(steepestSlope(car, road, 5)) * RAD;
    },
    unit: 'deg',
    tolerance: printed(2),
  };
}

function gripGrade(axle: AxleName, expected: number): Check {
  return {
    id: `traction.grade.closed.${axle}`,
    what: `grip-limited grade, ${axle} drive, mu 0.8`,
    source: `${CLOSED_FORM}: tan = mu a / (L -+ mu h)`,
    expected,
    computed: () => {
      const car = idealCar({
        mass: 1100,
        axle,
        friction: 0.8,
        frontShare: 1.25 / 2.4,
        wheelbase: 2.4,
        cgHeight: 0.52,
      });
      return Math.atan(steepestSlope(car, road, 5)) * RAD;
    },
    unit: 'deg',
    tolerance: EXACT,
  };
}

export const traction: Topic = {
  title: 'Traction and load transfer',
  checks: [
    {
      id: 'traction.static',
      what: 'acceleration with 48 % of the weight on the driven rear wheels, mu 0.60, no load transfer',
      source: 'question and answer on a tutoring site, g 9.8',
      expected: 2.82,
      computed: () =>
        (instant(idealCar({ mass: 1500, friction: 0.6, frontShare: 0.52 }), road, 5).acceleration / STANDARD) * 9.8,
      unit: 'm/s2',
      tolerance: printed(2),
    },
    slides('front', 2.889),
    slides('rear', 4.231),
    transfer('rear', 'acceleration', 5.2535625),
    transfer('rear', 'frontLoad', 4366.29416667),
    transfer('rear', 'rearLoad', 6421.02083333),
    transfer('front', 'acceleration', 3.84675078452),
    transfer('front', 'frontLoad', 4701.58429219),
    transfer('front', 'rearLoad', 6085.73070781),
    transfer('rear', 'acceleration', 5.19420021186, 0.012),
    transfer('front', 'acceleration', 3.79131508851, 0.012),
    grade('rear', 10.18),
    grade('front', 17.17),
    gripGrade('rear', 24.8776111945),
    gripGrade('front', 19.5506443037),
  ],
};
