/** Drive units with measured losses: a map sampled from the loss formula has to drive like the formula. */
import { describe, expect, it } from 'vitest';
import type { Car, Drive } from '../../src/model/car.ts';
import { completeCar } from '../../src/model/complete.ts';
import type { LossMap, LossTable } from '../../src/model/drive/efficiency-map.ts';
import type { CarSpec } from '../../src/model/spec.ts';
import type { TorqueTable } from '../../src/model/drive/torque-surface.ts';
import { launch } from '../../src/runs/launch/launch.ts';
import { testCar, testDay, testDrive } from '../cars.ts';

type Unit = Drive['unit'];
type Formula = (T: number, w: number) => number;

const axis = (last: number, steps: number): number[] => Array.from({ length: steps + 1 }, (_, i) => (last * i) / steps);

/** W, of the motor alone. */
function formulaOf({ losses: { copper, iron, windage, fixed } }: Unit): Formula {
  return (T, w) => copper * T * T + iron * w + windage * w ** 3 + fixed;
}

function sampled(unit: Unit, formula: Formula, includes: LossMap['includes']): LossMap {
  const [speed, torque] = [axis(unit.maxSpeed, 60), axis(unit.peakTorque, 60)];
  const loss = speed.flatMap(w => torque.map(T => formula(T, w)));
  return { includes, speed, torque, loss, reach: speed.map(() => unit.peakTorque) };
}

/** The losses of the motor as a map, those of the inverter as before. */
function withMotorMap(unit: Unit): Unit {
  const map = sampled(unit, formulaOf(unit), 'motor');
  return { ...unit, losses: { copper: 0, iron: 0, windage: 0, fixed: 0, map } };
}

/** One map for both. */
function withUnitMap(unit: Unit): Unit {
  const motor = formulaOf(unit);
  const eta = unit.inverterEfficiency;
  const map = sampled(unit, (T, w) => (motor(T, w) + (1 - eta) * T * w) / eta, 'motor and inverter');
  return { ...unit, losses: { copper: 0, iron: 0, windage: 0, fixed: 0, map }, inverterEfficiency: 1 };
}

function mapped(car: Car, change: (unit: Unit) => Unit): Car {
  return { ...car, drives: car.drives.map(drive => ({ ...drive, unit: change(drive.unit) })) };
}

const rear: Drive = { ...testDrive, axle: 'rear', unit: { ...testDrive.unit, peakTorque: 200, peakPower: 90e3 } };
const weak: Drive = { ...testDrive, unit: { ...testDrive.unit, peakTorque: 200, peakPower: 90e3 } };
const table = { speed: [0, 400, 600, 900, 1300], torque: [280, 270, 190, 110, 60] };
const CARS: { readonly [name: string]: readonly [Car, string] } = {
  'by its power': [{ ...testCar, drives: [{ ...weak, unit: { ...weak.unit, referenceVoltage: 300 } }] }, 'motor power'],
  'by a low current': [{ ...testCar, pack: { ...testCar.pack, maxCurrent: 250 } }, 'pack current'],
  'by the lowest voltage': [{ ...testCar, pack: { ...testCar.pack, minVoltage: 350 } }, 'pack voltage'],
  'by the sag of the pack': [
    { ...testCar, drives: [{ ...testDrive, unit: { ...testDrive.unit, referenceVoltage: 420 } }] },
    'pack voltage',
  ],
  'by a torque table': [
    { ...testCar, drives: [{ ...testDrive, unit: { ...testDrive.unit, referenceVoltage: 420, table } }] },
    'pack voltage',
  ],
  'with two drives on one pack': [{ ...testCar, drives: [weak, rear] }, 'pack current'],
  'with two drives in a fixed proportion': [
    { ...testCar, drives: [weak, rear], frontTorqueShare: 0.4 },
    'pack current',
  ],
};

function expectSame(a: ReturnType<typeof launch>, b: ReturnType<typeof launch>): void {
  for (const key of ['time_to_100_km_h', 'time_quarter_mile', 'speed_quarter_mile', 'top_speed'] as const) {
    const [one, other] = [Number(a.summary[key]), Number(b.summary[key])];
    expect(one, key).toBeGreaterThan(0);
    expect(Math.abs(other / one - 1), key).toBeLessThan(1e-4);
  }
  const heat = (result: typeof a): number => Object.values(result.ledger.out).reduce((sum, each) => sum + each, 0);
  expect(Math.abs(heat(b) / heat(a) - 1)).toBeLessThan(1e-4);
  expect(Math.abs(b.ledger.gap)).toBeLessThan(1e-6);
  expect(b.warnings).toEqual(a.warnings);
}

describe('a launch on a map', () => {
  for (const [name, [car, limiter]] of Object.entries(CARS)) {
    it(`is that on the formula which the map was sampled from: held back ${name}`, () => {
      const plain = launch(car, { surroundings: testDay });
      expect(plain.bands.map(band => band.limiter)).toContain(limiter);
      expectSame(plain, launch(mapped(car, withMotorMap), { surroundings: testDay }));
      expectSame(plain, launch(mapped(car, withUnitMap), { surroundings: testDay }));
    });
  }

  it('takes a map on one axle and the formula on the other', () => {
    const [car] = CARS['with two drives in a fixed proportion']!;
    const half = { ...car, drives: [{ ...weak, unit: withMotorMap(weak.unit) }, rear] };
    expectSame(launch(car, { surroundings: testDay }), launch(half, { surroundings: testDay }));
  });

  it('feels the loss that the map states', () => {
    const lossy = mapped(testCar, unit => {
      const motor = formulaOf(unit);
      const map = sampled(unit, (T, w) => 3 * motor(T, w), 'motor');
      return { ...unit, losses: { ...unit.losses, map } };
    });
    const [plain, slow] = [testCar, lossy].map(car => launch(car, { surroundings: testDay }));
    expect(Number(slow?.summary['time_quarter_mile'])).toBeGreaterThan(
      1.001 * Number(plain?.summary['time_quarter_mile']),
    );
  });
});

describe('a car of measured tables', () => {
  const unit = { peakTorque: 250, peakPower: 90e3, maxSpeed: 1100, inverterEfficiency: 0.97 } as const;
  const constants = { copperLoss: 0.09, ironLoss: 3, windageLoss: 2e-6, fixedLoss: 400 } as const;
  const { cell } = testCar.pack;
  const spec = (of: object, drive: object = { axle: 'front' }): CarSpec => ({
    mass: 1100,
    tyres: { radius: 0.3 },
    drive: { ratio: 8.5, unit: { ...unit, ...of }, ...drive },
    pack: {
      cell: {
        capacity: cell.capacity,
        ocvCharge: cell.ocv.charge,
        ocvVoltage: cell.ocv.voltage,
        resistanceCharge: cell.resistance.charge,
        resistanceOhm: cell.resistance.ohm,
        maxCurrent: cell.maxCurrent,
        minVoltage: cell.minVoltage,
        maxVoltage: cell.maxVoltage,
        mass: cell.mass,
      },
      series: 96,
      parallel: 12,
    },
  });
  const { copperLoss: copper, ironLoss: iron, windageLoss: windage, fixedLoss: fixed } = constants;
  const [speed, torque] = [axis(1100, 50), axis(250, 50)];
  const loss = speed.flatMap(w => torque.map(T => copper * T * T + iron * w + windage * w ** 3 + fixed));
  const measured: LossTable = { voltage: [], speed, torque, loss };
  const files = (table: LossTable | null, torqueTable: TorqueTable | null = null) =>
    new Map([['drive.unit', { loss: table, torque: torqueTable, notes: [] }]]);

  it('drives like the constants behind its map, on one axle and on both', () => {
    for (const drive of [{ axle: 'rear' }, { axle: 'both', frontTorqueShare: 0.35 }]) {
      const given = completeCar(spec(constants, drive)).car;
      const made = completeCar(spec({ map: 'unit.csv', mapIncludes: 'motor' }, drive), '', files(measured)).car;
      expectSame(launch(given, { surroundings: testDay }), launch(made, { surroundings: testDay }));
    }
  });

  it('is as warm as the constants would make it', () => {
    const ratings = { continuousPower: 30e3 };
    const [given] = completeCar(spec({ ...constants, ...ratings })).car.drives;
    const [made] = completeCar(spec({ ...ratings, map: 'unit.csv', mapIncludes: 'motor' }), '', files(measured)).car
      .drives;
    expect(made?.unit.heat?.capacity).toBeCloseTo(given?.unit.heat?.capacity ?? 0, 0);
    expect(made?.unit.heat?.cooling).toBeCloseTo(given?.unit.heat?.cooling ?? 0, 3);
  });

  it('takes the inverter into a map that has it', () => {
    const { car, inputs } = completeCar(spec({ map: 'a', mapIncludes: 'motor and inverter' }), '', files(measured));
    expect(car.drives[0]?.unit.inverterEfficiency).toBe(1);
    expect(inputs.map(({ path }) => path)).not.toContain('drive.unit.copper_loss');
  });

  it('takes a torque table of several voltages at its reference voltage, and says so', () => {
    const torques = { voltage: [300, 400], speed: [0, 500, 1000, 1100], torque: [200, 180, 60, 0, 240, 220, 100, 20] };
    const of = (referenceVoltage: number) =>
      completeCar(spec({ torqueTable: 't.csv', referenceVoltage }), '', files(null, torques));
    const { car, notes } = of(350);
    expect(car.drives[0]?.unit.table).toEqual({ speed: torques.speed, torque: [220, 200, 80, 10] });
    expect(notes.join()).toContain('drive.unit: the torque table is taken at the reference voltage, 350 V');
    expect(of(300).car.drives[0]?.unit.table?.torque.at(-1)).toBe(0);
    expect(() => of(420)).toThrow(/is for 300 V to 400 V, but the reference voltage is 420 V/);
  });

  it('refuses a map whose file nobody has read', () => {
    expect(() => completeCar(spec({ map: 'unit.csv', mapIncludes: 'motor' }))).toThrow(/was not read/);
  });
});

describe('a torque table with a flat top', () => {
  it('changes its limits in time, and odex agrees', () => {
    const { table: _, ...unit } = testCar.drives[0]!.unit;
    const speed = [0, 200, 400, 430, 500, 650, 850, 1100, 1300];
    const torque = speed.map(w => Math.min(280, 120_000 / Math.max(w, 1)));
    const drive = { ...testCar.drives[0]!, unit: { ...unit, referenceVoltage: 380, table: { speed, torque } } };
    const result = launch({ ...testCar, drives: [drive] }, { surroundings: testDay });
    expect(result.warnings).toEqual([]);
    expect(result.opinion?.agrees).toBe(true);
  });
});
