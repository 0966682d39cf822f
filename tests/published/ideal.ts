/**
 * Cars as textbooks have them: whatever a worked example leaves out is absent here. Losses, inertias, resistances and limits are
 * nothing unless they are named.
 */
import { densityAt } from '../../src/model/air.ts';
import type { AxleName, Car, DriveUnit, Pack, Surroundings, Tyre } from '../../src/model/car.ts';
import { testComfort } from '../cars.ts';

/** N or V or A that never limits. */
const NO_LIMIT = 1e9;

export interface Ideal {
  /** kg. */
  readonly mass: number;
  readonly axle?: AxleName;
  /** N at the wheels from rest. */
  readonly force?: number;
  /** W. */
  readonly power?: number;
  /** s. */
  readonly torqueRise?: number;
  /** Share of it at the greatest speed. */
  readonly powerAtTop?: number;
  readonly ratio?: number;
  /** m. */
  readonly radius?: number;
  /** m2. */
  readonly dragArea?: number;
  readonly rolling?: Partial<Tyre['rolling']>;
  /** Rolling resistance of the undriven axle alone. */
  readonly rollingUndriven?: Partial<Tyre['rolling']>;
  /** Peak friction; unlimited when left out. */
  readonly friction?: number;
  readonly frontShare?: number;
  /** m; 0 carries no load from axle to axle. */
  readonly cgHeight?: number;
  readonly wheelbase?: number;
  /** kg m2 of one wheel. */
  readonly wheelInertia?: number;
  readonly rotorInertia?: number;
  readonly efficiency?: number;
  readonly losses?: Partial<DriveUnit['losses']>;
  /** rad/s. */
  readonly maxSpeed?: number;
  /** V, the same at any charge. */
  readonly emf?: number;
  /** ohm of the whole pack. */
  readonly resistance?: number;
  /** W. */
  readonly auxiliaries?: number;
  readonly slipAtPeak?: number;
}

export function idealCar(ideal: Ideal): Car {
  const axle = ideal.axle ?? 'rear';
  const radius = ideal.radius ?? 0.3;
  const ratio = ideal.ratio ?? 1;
  const driven = tyre(ideal, radius, ideal.rolling ?? {});
  const undriven = tyre(ideal, radius, ideal.rollingUndriven ?? ideal.rolling ?? {});
  const maxSpeed = ideal.maxSpeed ?? 1e5;
  return {
    body: {
      mass: ideal.mass,
      driver: 0,
      load: 0,
      frontShare: ideal.frontShare ?? 0.5,
      wheelbase: ideal.wheelbase ?? 2.5,
      cgHeight: ideal.cgHeight ?? 0,
      dragArea: ideal.dragArea ?? 0,
      dragHeight: 0,
      liftAreaFront: 0,
      liftAreaRear: 0,
    },
    tyres: axle === 'front' ? { front: driven, rear: undriven } : { front: undriven, rear: driven },
    drives: [
      {
        axle,
        ratio,
        unit: {
          peakTorque: ((ideal.force ?? NO_LIMIT) * radius) / ratio,
          peakPower: ideal.power ?? 1e15,
          powerAtTop: ideal.powerAtTop ?? 1,
          torqueRise: ideal.torqueRise ?? 0,
          referenceVoltage: 1e-3,
          maxSpeed,
          // So near that the falling line passes above any torque asked for.
          taperSpeed: (1 - 1e-9) * maxSpeed,
          table: null,
          inertia: ideal.rotorInertia ?? 0,
          losses: { copper: 0, iron: 0, windage: 0, fixed: 0, ...ideal.losses },
          standstillLoss: 0,
          inverterEfficiency: 1,
        },
        efficiency: ideal.efficiency ?? 1,
        dragTorque: 0,
        inertia: 0,
        shaftTorque: null,
        traction: { policy: 'held', share: 1 },
        regeneration: {
          kind: 'blended',
          share: 1,
          torque: NO_LIMIT,
          power: NO_LIMIT,
          fadeFrom: 0,
          fadeTo: -1,
          gripShare: 1,
        },
      },
    ],
    pack: pack(ideal),
    auxiliaries: { power: ideal.auxiliaries ?? 0, converterEfficiency: 1 },
    ...testComfort,
  };
}

function tyre(ideal: Ideal, radius: number, rolling: Partial<Tyre['rolling']>): Tyre {
  const peak = ideal.friction ?? NO_LIMIT;
  const friction = { peak, slide: 0.8 * peak };
  return {
    radius,
    inertia: ideal.wheelInertia ?? 0,
    rolling: { c0: 0, c1: 0, c2: 0, ...rolling },
    dry: friction,
    wet: friction,
    slipAtPeak: ideal.slipAtPeak ?? 0,
    loadExponent: 0,
    loadReference: 5000,
  };
}

/** One big cell that keeps its voltage. */
function pack(ideal: Ideal): Pack {
  const emf = ideal.emf ?? 1e6;
  const ohm = ideal.resistance ?? 0;
  return {
    cell: {
      capacity: 1e15,
      ocv: { charge: [0, 1], voltage: [emf, emf] },
      resistance: { charge: [0, 1], ohm: [ohm, ohm] },
      pairs: [],
      maxCurrent: 1e15,
      maxChargeCurrent: 1e15,
      coulombicEfficiency: 1,
      minVoltage: 0,
      maxVoltage: emf,
      mass: 0,
    },
    series: 1,
    parallel: 1,
    charge: 0.5,
    health: 1,
    resistanceGrowth: 1,
    wiringResistance: 0,
    maxCurrent: 1e15,
    minVoltage: 0,
    maxVoltage: emf,
    maxChargeCurrent: 1e15,
    chargeCold: { none: 100, full: 101 },
    window: { low: 0, high: 1 },
  };
}

/**
 * Level road at 25 degC (where a rolling coefficient counts as stated) and the altitude, however odd, at which dry air has the
 * density of the example, kg/m3.
 */
export function roadWithDensity(density = 1.225, more: Partial<Surroundings> = {}): Surroundings {
  const at = (altitude: number): Surroundings => ({
    temperature: 298.15,
    altitude,
    humidity: 0,
    wind: 0,
    slope: 0,
    surface: 'dry',
    ...more,
  });
  let low = -2000;
  let high = 10_000;
  if (!(densityAt(at(low)) >= density && densityAt(at(high)) <= density)) {
    throw new RangeError(`no altitude has ${density} kg/m3`);
  }
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (densityAt(at(middle)) > density) low = middle;
    else high = middle;
  }
  return at(low);
}
