/** What a launch can be asked for, how it changes a car, and how it is said. */
import { loadedMass } from '../../model/body/loaded-mass.ts';
import type { Car, DriveUnit } from '../../model/car.ts';
import { totalPower, withFriction, withPower } from '../../runs/variant.ts';

export const LAUNCH_PARAMETERS = [
  'power',
  'power_at_top',
  'grip',
  'torque',
  'torque_rise',
  'copper_loss',
  'mass',
] as const;
export type LaunchParameter = (typeof LAUNCH_PARAMETERS)[number];

export interface ParameterKind {
  readonly name: string;
  /** As the car has it. */
  readonly start: (car: Car) => number;
  /** A usual change; what a launch knows no better than this it does not tell. */
  readonly scale: number;
  readonly within: readonly [number, number];
  readonly apply: (car: Car, value: number) => Car;
}

const times = (name: string, scale: number, apply: ParameterKind['apply']): ParameterKind => ({
  name,
  start: () => 1,
  scale,
  within: [0.2, 4],
  apply,
});

export const PARAMETER_KINDS: { readonly [key in LaunchParameter]: ParameterKind } = {
  power: times('power', 0.15, (car, factor) => withPower(car, factor * totalPower(car))),
  power_at_top: {
    name: 'power at the top speed of the motor',
    start: car => Math.min(0.99, car.drives[0]?.unit.powerAtTop ?? 0.99),
    scale: 0.15,
    within: [0.5, 1],
    apply: (car, value) => withUnit(car, () => ({ powerAtTop: value })),
  },
  grip: times('grip', 0.15, withFriction),
  torque: times('torque', 0.15, withTorque),
  torque_rise: {
    name: 'build-up time',
    start: car => car.drives[0]?.unit.torqueRise ?? 0,
    scale: 0.15,
    within: [0.001, 1],
    apply: withRise,
  },
  copper_loss: {
    ...times('copper loss', 0.3, (car, factor) =>
      withUnit(car, ({ losses }) => ({ losses: { ...losses, copper: factor * losses.copper } })),
    ),
    within: [0.05, 8],
  },
  mass: times('mass', 0.03, (car, factor) => {
    const { body } = car;
    return {
      ...car,
      body: { ...body, mass: factor * loadedMass(body) - body.driver - body.load },
    };
  }),
};

function withTorque(car: Car, factor: number): Car {
  return withUnit(car, ({ peakTorque }) => ({ peakTorque: factor * peakTorque }));
}

function withRise(car: Car, seconds: number): Car {
  return withUnit(car, () => ({ torqueRise: seconds }));
}

function withUnit(car: Car, change: (unit: DriveUnit) => Partial<DriveUnit>): Car {
  return { ...car, drives: car.drives.map(drive => ({ ...drive, unit: { ...drive.unit, ...change(drive.unit) } })) };
}

/** Standard uncertainties that a number must have room for within its limits, so that normal draws are numbers that it may have. */
export const ROOM = 3.5;

/** Whether a value that was found may be drawn from a normal distribution. */
export function hasRoom(parameter: LaunchParameter, value: number, standard: number): boolean {
  const [least, most] = PARAMETER_KINDS[parameter].within;
  return value - ROOM * standard >= least && value + ROOM * standard <= most;
}
