/** Cars to test with: one plain, one with everything ideal, and random ones. All invented. */
import * as fc from 'fast-check';
import type { Car, Cell, Drive, Gearbox, Surroundings, Tyre } from '../src/model/car.ts';

const testCell: Cell = {
  capacity: 5 * 3600,
  ocv: { charge: [0, 0.1, 0.3, 0.5, 0.7, 0.9, 1], voltage: [3.0, 3.35, 3.55, 3.68, 3.87, 4.07, 4.18] },
  resistance: { charge: [0, 0.2, 0.5, 1], ohm: [0.03, 0.022, 0.02, 0.021] },
  pairs: [{ resistance: 0.012, timeConstant: 25 }],
  maxCurrent: 40,
  maxChargeCurrent: 10,
  coulombicEfficiency: 1,
  minVoltage: 2.8,
  maxVoltage: 4.2,
  mass: 0.07,
};

const testTyre: Tyre = {
  radius: 0.3,
  inertia: 0.9,
  rolling: { c0: 0.011, c1: 0.0002, c2: 2e-6 },
  dry: { peak: 0.95, slide: 0.78 },
  wet: { peak: 0.6, slide: 0.5 },
  slipAtPeak: 0.12,
  loadExponent: 0.1,
  loadReference: 5000,
};

export const testDrive: Drive = {
  axle: 'front',
  unit: {
    peakTorque: 280,
    peakPower: 120_000,
    powerAtTop: 0.85,
    torqueRise: 0.15,
    referenceVoltage: 350,
    maxSpeed: 1300,
    taperSpeed: 1250,
    table: null,
    inertia: 0.045,
    losses: { copper: 0.1, iron: 0.01, windage: 5e-6, fixed: 500 },
    standstillLoss: 100,
    inverterEfficiency: 0.97,
  },
  ratio: 8.5,
  efficiency: 0.96,
  dragTorque: 0.5,
  inertia: 0.1,
  shaftTorque: null,
  traction: { policy: 'held', share: 1 },
  regeneration: {
    kind: 'blended',
    share: 0.95,
    torque: 170,
    power: 60_000,
    fadeFrom: 4,
    fadeTo: 1.5,
    gripShare: 0.5,
  },
};

/** Nothing is heated; one charger. */
export const testComfort: Pick<Car, 'cabin' | 'charger'> = {
  cabin: {
    heater: 'none',
    cooled: false,
    temperature: 293.15,
    loss: 0,
    heatCapacity: 0,
    heaterPower: 0,
    heatPumpFactor: 1,
    heatPumpSlope: 0,
    coolerFactor: 1,
    sun: 0,
  },
  charger: { power: 6600, count: 1, efficiency: 0.9, idleShare: 0, usualPower: 6600, overhead: 150 },
};

export const testCar: Car = {
  body: {
    mass: 1050,
    driver: 75,
    load: 0,
    frontShare: 0.57,
    wheelbase: 2.45,
    cgHeight: 0.54,
    dragArea: 0.75,
    dragHeight: 0.54,
    liftAreaFront: 0.05,
    liftAreaRear: 0.1,
  },
  tyres: { front: testTyre, rear: testTyre },
  drives: [testDrive],
  pack: {
    cell: testCell,
    series: 96,
    parallel: 12,
    charge: 0.9,
    health: 1,
    resistanceGrowth: 1,
    wiringResistance: 0.02,
    maxCurrent: 450,
    minVoltage: 270,
    maxVoltage: 403,
    maxChargeCurrent: 120,
    chargeCold: { none: 268.15, full: 288.15 },
    window: { low: 0.05, high: 0.95 },
  },
  auxiliaries: { power: 300, converterEfficiency: 0.9 },
  ...testComfort,
};

/** The car with the heat that a pack of its mass usually has. */
export function withPackHeat(car: Car): Car {
  const mass = car.pack.series * car.pack.parallel * car.pack.cell.mass;
  const heat = {
    capacity: 1400 * mass,
    cooling: 0.03 * mass,
    derateAt: 323.15,
    derateRange: 10,
    resistanceActivation: 2400,
  };
  return { ...car, pack: { ...car.pack, heat } };
}

export const testDay: Surroundings = {
  temperature: 293.15,
  altitude: 0,
  humidity: 0.5,
  wind: 0,
  slope: 0,
  surface: 'dry',
};

/**
 * A car in which nothing is lost and nothing turns: what is left is the force the drive puts out, so that closed forms
 * hold to round-off. Rigid tyres on `friction`, a pack without resistance, gears 1:1 on a radius of 1 m, so that torque is
 * force and motor speed is road speed.
 */
export function idealCar(ideal: {
  mass: number;
  force: number;
  power: number;
  powerAtTop?: number;
  torqueRise?: number;
  axle?: 'front' | 'rear';
  friction?: number;
  frontShare?: number;
  wheelbase?: number;
  cgHeight?: number;
  rolling?: number;
  /** kg/m: F = k v^2 in the air of `stillAir`. */
  drag?: number;
}): Car {
  const peak = ideal.friction ?? 1e6;
  const friction = { peak, slide: 0.8 * peak };
  const tyre: Tyre = {
    radius: 1,
    inertia: 0,
    rolling: { c0: ideal.rolling ?? 0, c1: 0, c2: 0 },
    dry: friction,
    wet: friction,
    slipAtPeak: 0,
    loadExponent: 0,
    loadReference: 1,
  };
  return {
    body: {
      mass: ideal.mass,
      driver: 0,
      load: 0,
      frontShare: ideal.frontShare ?? 0.5,
      wheelbase: ideal.wheelbase ?? 2.5,
      cgHeight: ideal.cgHeight ?? 0.5,
      dragArea: ideal.drag ?? 0,
      dragHeight: 0,
      liftAreaFront: 0,
      liftAreaRear: 0,
    },
    tyres: { front: tyre, rear: tyre },
    drives: [
      {
        axle: ideal.axle ?? 'rear',
        unit: {
          peakTorque: ideal.force,
          peakPower: ideal.power,
          powerAtTop: ideal.powerAtTop ?? 1,
          torqueRise: ideal.torqueRise ?? 0,
          referenceVoltage: 100,
          maxSpeed: 2e4,
          taperSpeed: 1.9e4,
          table: null,
          inertia: 0,
          losses: { copper: 0, iron: 0, windage: 0, fixed: 0 },
          standstillLoss: 0,
          inverterEfficiency: 1,
        },
        ratio: 1,
        efficiency: 1,
        dragTorque: 0,
        inertia: 0,
        shaftTorque: null,
        traction: { policy: 'held', share: 1 },
        regeneration: {
          kind: 'blended',
          share: 1,
          torque: ideal.force,
          power: ideal.power,
          fadeFrom: 0,
          fadeTo: -1,
          gripShare: 1,
        },
      },
    ],
    pack: {
      cell: {
        capacity: 3.6e9,
        ocv: { charge: [0, 1], voltage: [399, 401] },
        resistance: { charge: [0, 1], ohm: [0, 0] },
        pairs: [],
        maxCurrent: 1e9,
        maxChargeCurrent: 1e9,
        coulombicEfficiency: 1,
        minVoltage: 10,
        maxVoltage: 401,
        mass: 1,
      },
      series: 1,
      parallel: 1,
      charge: 0.9,
      health: 1,
      resistanceGrowth: 1,
      wiringResistance: 0,
      maxCurrent: 1e9,
      minVoltage: 10,
      maxVoltage: 401,
      maxChargeCurrent: 1e9,
      chargeCold: { none: 100, full: 101 },
      window: { low: 0, high: 1 },
    },
    auxiliaries: { power: 0, converterEfficiency: 1 },
    ...testComfort,
  };
}

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** 0 to 1 out of the last digits of another draw: a draw of its own would change all that are drawn after it. */
const digits = (value: number): number => (1e4 * Math.abs(value)) % 1;

const arbitraryTyre: fc.Arbitrary<Tyre> = fc
  .record({
    radius: between(0.22, 0.4),
    inertia: between(0.3, 2),
    c0: between(0.006, 0.02),
    c1: between(0, 4e-4),
    c2: between(0, 5e-6),
    peak: between(0.3, 1.4),
    slide: between(0.6, 0.98),
    wet: between(0.4, 0.9),
    slipAtPeak: between(0.05, 0.25),
    loadExponent: between(0, 0.2),
    loadReference: between(3000, 9000),
  })
  .map(({ c0, c1, c2, peak, slide, wet, ...rest }) => ({
    ...rest,
    rolling: { c0, c1, c2 },
    dry: { peak, slide: peak * slide },
    wet: { peak: peak * wet, slide: peak * wet * slide },
    ...(digits(c0) < 0.5 && {
      warming: { rise: digits(peak), warmAfter: 60 + 3000 * digits(slide), coldAfter: 10_800 },
    }),
  }));

const arbitraryDrive: fc.Arbitrary<Drive> = fc
  .record({
    axle: fc.constantFrom('front' as const, 'rear' as const),
    peakTorque: between(80, 450),
    basePower: between(0.15, 0.6),
    referenceVoltage: between(200, 450),
    maxSpeed: between(800, 1700),
    taper: between(0.85, 0.98),
    inertia: between(0.01, 0.1),
    copper: between(0, 0.3),
    fixed: between(0, 800),
    inverterEfficiency: between(0.93, 1),
    ratio: between(4, 11),
    efficiency: between(0.9, 1),
    dragTorque: between(0, 1.5),
    shaftTorque: fc.option(between(1500, 4000), { nil: null }),
    share: between(0.5, 1),
    held: fc.boolean(),
    kind: fc.constantFrom('blended' as const, 'lift' as const, 'none' as const),
    torqueShare: between(0.05, 1),
    brakingShare: between(0.4, 1),
    fadeTo: between(0, 2),
    fade: between(0.5, 4),
    gripShare: between(0.1, 1),
    powerAtTop: fc.oneof(fc.constant(1), between(0.5, 1)),
    torqueRise: fc.oneof(fc.constant(0), between(0.005, 0.3)),
  })
  .map(d => ({
    axle: d.axle,
    unit: {
      peakTorque: d.peakTorque,
      peakPower: d.peakTorque * d.maxSpeed * d.basePower,
      powerAtTop: d.powerAtTop,
      torqueRise: d.torqueRise,
      referenceVoltage: d.referenceVoltage,
      maxSpeed: d.maxSpeed,
      taperSpeed: d.taper * d.maxSpeed,
      table: null,
      inertia: d.inertia,
      losses: { copper: d.copper, iron: 0.02, windage: 4e-6, fixed: d.fixed },
      standstillLoss: 0.2 * d.fixed,
      inverterEfficiency: d.inverterEfficiency,
    },
    ratio: d.ratio,
    efficiency: d.efficiency,
    dragTorque: d.dragTorque,
    inertia: 0.1,
    shaftTorque: d.shaftTorque,
    traction: { policy: d.held ? ('held' as const) : ('share' as const), share: d.held ? 1 : d.share },
    regeneration: {
      kind: d.kind,
      share: d.brakingShare,
      torque: d.torqueShare * d.peakTorque,
      power: d.torqueShare * d.peakTorque * d.maxSpeed * d.basePower,
      fadeFrom: d.fadeTo + d.fade,
      fadeTo: d.fadeTo,
      gripShare: d.gripShare,
    },
  }));

/** A car out of anything that a workshop might put together, most of them odd, all of them possible. */
export const arbitraryCar: fc.Arbitrary<Car> = fc
  .record({
    mass: between(600, 2400),
    frontShare: between(0.38, 0.64),
    wheelbase: between(2, 3),
    cgHeight: between(0.4, 0.7),
    dragArea: between(0.4, 1.4),
    liftAreaFront: between(-0.1, 0.3),
    liftAreaRear: between(-0.1, 0.3),
    front: arbitraryTyre,
    rear: arbitraryTyre,
    drive: arbitraryDrive,
    series: fc.integer({ min: 60, max: 120 }),
    parallel: fc.integer({ min: 4, max: 30 }),
    charge: between(0.15, 1),
    currentShare: between(0.4, 1),
    wiringResistance: between(0, 0.05),
    auxiliary: between(0, 3000),
    shaftRatio: fc.option(between(2.5, 5), { nil: null }),
    frontRollShare: between(0.3, 0.8),
    hubDrag: between(0, 120),
    trailer: fc.option(
      fc.record({
        mass: between(150, 1500),
        hitchLoad: between(0, 100),
        hitchHeight: between(0.3, 0.6),
        overhang: between(0.4, 1.4),
        dragArea: between(0, 2.5),
        rolling: between(0.01, 0.03),
      }),
      { nil: null },
    ),
  })
  .map(c => ({
    body: {
      mass: c.mass,
      driver: 75,
      load: 0,
      frontShare: c.frontShare,
      wheelbase: c.wheelbase,
      cgHeight: c.cgHeight,
      dragArea: c.dragArea,
      dragHeight: c.cgHeight,
      liftAreaFront: c.liftAreaFront,
      liftAreaRear: c.liftAreaRear,
      hubDrag: c.hubDrag,
      track: 1.3,
      frontRollShare: c.frontRollShare,
    },
    tyres: { front: c.front, rear: c.rear },
    drives: [{ ...c.drive, ...(c.shaftRatio !== null && { liveAxle: { ratio: c.shaftRatio } }) }],
    pack: {
      cell: testCell,
      series: c.series,
      parallel: c.parallel,
      charge: c.charge,
      health: 0.9,
      resistanceGrowth: 1.2,
      wiringResistance: c.wiringResistance,
      maxCurrent: c.parallel * testCell.maxCurrent * c.currentShare,
      minVoltage: c.series * testCell.minVoltage,
      maxVoltage: c.series * testCell.maxVoltage,
      maxChargeCurrent: c.parallel * testCell.maxChargeCurrent,
      chargeCold: { none: 268.15, full: 288.15 },
      ...(digits(c.mass) < 0.5 && {
        pulses: {
          time: 5 + 55 * digits(c.wheelbase),
          continuous: (0.2 + 0.8 * digits(c.dragArea)) * c.parallel * testCell.maxCurrent * c.currentShare,
          continuousCharge: (0.2 + 0.8 * digits(c.dragArea)) * c.parallel * testCell.maxChargeCurrent,
        },
      }),
      // Enough for a car to move off by: one that is too weak for that is another test.
      ...(digits(c.charge) < 0.5 && {
        weak: {
          cold: { none: 208.15 - 80 * digits(c.cgHeight), full: 288.15 },
          low: { charge: 0.05 + 0.45 * digits(c.frontShare), share: 0.3 },
        },
      }),
      window: { low: 0.05, high: 0.95 },
    },
    auxiliaries: { power: c.auxiliary, converterEfficiency: 0.9 },
    ...testComfort,
    ...(c.trailer !== null && { trailer: c.trailer }),
  }));

export const arbitraryDay: fc.Arbitrary<Surroundings> = fc.record({
  temperature: between(253, 313),
  altitude: between(0, 2500),
  humidity: between(0, 1),
  wind: between(-8, 8),
  slope: between(-0.05, 0.12),
  surface: fc.constantFrom('dry' as const, 'wet' as const),
});

/** The same cars with everything that a build may have: two drives, a fixed split, a gearbox, free wheels, heat. */
export const arbitraryBuild: fc.Arbitrary<Car> = fc
  .record({
    car: arbitraryCar,
    second: fc.option(arbitraryDrive, { nil: null }),
    split: fc.option(between(0.2, 0.8), { nil: null }),
    spin: fc.boolean(),
    gears: fc.option(fc.integer({ min: 1, max: 4 }), { nil: null }),
    step: between(1.3, 2),
    shiftAt: between(0.6, 0.95),
    shiftTime: between(0, 0.8),
    heat: fc.boolean(),
    warm: between(1500, 60_000),
  })
  .map(({ car, second, split, spin, gears, step, shiftAt, shiftTime, heat, warm }) => {
    const [first] = car.drives as [Drive];
    const other = first.axle === 'front' ? ('rear' as const) : ('front' as const);
    const drives = (second === null ? [first] : [first, { ...second, axle: other }]).map((drive, i) => ({
      ...drive,
      traction: spin ? { policy: 'spin' as const, share: 1 } : drive.traction,
      ...(i === 0 && gears !== null && { gearbox: gearbox(gears, step, shiftAt * drive.unit.maxSpeed, shiftTime) }),
      unit: {
        ...drive.unit,
        ...(heat && {
          heat: { capacity: warm, cooling: 40, derateAt: 330, derateRange: 20, continuousShare: 0.4 },
        }),
      },
    }));
    return {
      ...car,
      drives,
      ...(drives.length === 2 && split !== null && { frontTorqueShare: split }),
      pack: {
        ...car.pack,
        ...(heat && {
          heat: { capacity: 20 * warm, cooling: 20, derateAt: 318, derateRange: 15, resistanceActivation: 2400 },
        }),
      },
    };
  });

function gearbox(count: number, step: number, upshift: number, shiftTime: number): Gearbox {
  const gears = Array.from({ length: count }, (_, i) => ({
    ratio: step ** (count - 1 - i) / step ** ((count - 1) / 2),
    efficiency: 0.97,
    inertia: 0.05,
    upshift,
  }));
  return { gears, shiftTime };
}
