/** Two drives whose torques are shared, slowed hard by the air: which of the slips that balance the forces is the one of a car. */
import { expect, it } from 'vitest';
import type { Car, Drive } from '../../../src/model/car.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { CHARGE } from '../../../src/model/forward/state.ts';
import { testCar, testDrive } from '../../cars.ts';
import { demanded } from '../demanded.ts';

const tyre = { ...testCar.tyres.front, rolling: { c0: 0.01, c1: 0, c2: 0 }, loadExponent: 0 };
const { unit } = testDrive;
const losses = { copper: 0, iron: 0.02, windage: 4e-6, fixed: 0 };
const free: Pick<Drive, 'dragTorque' | 'inertia'> = { dragTorque: 0, inertia: 0.1 };
const [behind, before] = [
  { peakTorque: 99, peakPower: 36_830, powerAtTop: 0.96, torqueRise: 0, referenceVoltage: 276.5, maxSpeed: 1700 },
  { peakTorque: 80, peakPower: 17_820, powerAtTop: 0.83, torqueRise: 0.005, referenceVoltage: 450, maxSpeed: 1246 },
];
/** Behind a trailer with the wind of a lorry, on a wet road. */
const car: Car = {
  ...testCar,
  body: {
    ...testCar.body,
    mass: 600,
    dragArea: 0.49,
    liftAreaFront: 0,
    liftAreaRear: 0,
    cgHeight: 0.45,
    dragHeight: 0.45,
    wheelbase: 2.02,
  },
  tyres: {
    front: {
      ...tyre,
      radius: 0.4,
      inertia: 0.65,
      slipAtPeak: 0.05,
      wet: { peak: 0.3078, slide: 0.2167 },
      loadExponent: 0,
    },
    rear: {
      ...tyre,
      radius: 0.22,
      inertia: 0.57,
      slipAtPeak: 0.185,
      wet: { peak: 0.3924, slide: 0.37 },
      loadExponent: 0,
    },
  },
  drives: [
    {
      ...testDrive,
      ...free,
      axle: 'rear',
      ratio: 1.76,
      efficiency: 0.9476,
      unit: { ...unit, ...behind, taperSpeed: 1549, losses, inertia: 0.0146, inverterEfficiency: 0.9765 },
    },
    {
      ...testDrive,
      ...free,
      ratio: 4,
      efficiency: 0.9,
      unit: { ...unit, ...before, taperSpeed: 1221, losses, inertia: 0.095, inverterEfficiency: 0.9917 },
    },
  ],
  pack: {
    ...testCar.pack,
    series: 78,
    parallel: 14,
    health: 0.9,
    resistanceGrowth: 1.2,
    maxCurrent: 314,
    minVoltage: 218.4,
    maxVoltage: 327.6,
  },
  auxiliaries: { power: 0, converterEfficiency: 0.9 },
  trailer: { mass: 198, hitchLoad: 0, hitchHeight: 0.47, overhang: 0.84, dragArea: 2.5, rolling: 0.027 },
  frontTorqueShare: 0.4,
};

it('keeps slips before the peak of friction where what turns could hold the wheels beyond it as well', () => {
  const day = { temperature: 277.4, altitude: 0, humidity: 0, wind: -8, slope: 0, surface: 'wet' } as const;
  const plant = plantFor(plantParameters(car, day));
  const y = plant.initial(118.4);
  y[CHARGE] = 0.345;
  plant.rates(plant.modeAt(y), y, new Float64Array(plant.states + plant.quadratures));
  const { now, driven } = plant;
  expect(driven.map(({ slip, force, grip }) => [slip > 0 && slip < 0.1, force < grip])).toEqual([
    [true, true],
    [true, true],
  ]);
  const back = demanded(car, day, 118.4, now.acceleration);
  driven.forEach(({ torque }, i) => expect(back.axles[i]?.torque).toBeCloseTo(torque, 9));
});
