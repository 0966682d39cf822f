/** A car from JSON is the car of a cell that says the same. */
import { describe, expect, it } from 'vitest';
import { readCar, readTorqueTable } from '../../src/doors/notebook.ts';
import { completeCar, launch, completeSurroundings, questionOf, createAsk, SpecError } from '../../src/index.ts';
import type { Fields } from '../../src/model/fields/field.ts';
import { carFields } from '../../src/model/spec.ts';
import { readQuantity } from '../../src/units.ts';

const data = {
  mass: '1240 kg',
  dragArea: 0.62,
  tyres: { from: 'tyre_sport', size: '165/80 R 13', pressure: '32 psi' },
  drive: { axle: 'rear', unit: 'unit_100kw', ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
};

function refusal(more: object): SpecError {
  try {
    readCar({ ...data, ...more });
  } catch (error) {
    if (error instanceof SpecError) return error;
    throw error;
  }
  throw new Error('was taken');
}

describe('a car', () => {
  it('is the one that its specification in SI is', () => {
    const read = readCar(JSON.stringify(data));
    expect(read.car.body.mass).toBe(1240);
    expect(read.car).toEqual(completeCar(read.spec).car);
    // 1 psi = 6894.757 Pa (NIST SP 811, B.8).
    expect(read.spec).toMatchObject({ tyres: { pressure: expect.closeTo(32 * 6894.757, 0) }, mass: 1240 });
    expect(readCar({ ...data, mass: 1240 }).car).toEqual(read.car);
    expect(read.inputs.map(({ path }) => path)).toContain('car.wheelbase');
    const ask = createAsk(questionOf({ spec: read.spec, kind: 'launch' }));
    expect(ask([]).summary['time']).toBe(launch(read.car, completeSurroundings({})).summary['time']);
  });

  it('may be written in words of a notebook', () => {
    const { dragArea, ...rest } = data;
    expect(readCar({ ...rest, drag_area: dragArea }).car).toEqual(readCar(data).car);
  });

  it('keeps what it says of its spread', () => {
    const { inputs } = readCar({ ...data, mass: '1240 kg ± 15 kg' });
    expect(inputs.find(({ path }) => path === 'car.mass')?.spread).toBeDefined();
  });
});

describe('what is wrong', () => {
  it.each([
    [{ mass: null }, 'car.mass', 'has no value'],
    [{ mass: '1240 kgs' }, 'car.mass', 'unknown unit "kgs"'],
    [{ mass: '12400000 kg' }, 'car.mass', 'too large'],
    [{ mass: undefined }, 'car.mass', 'is missing'],
    [{ tyres: 'tyre_sprot' }, 'car.tyres', 'did you mean "tyre_sport"?'],
    [{ tyres: { size: 165 } }, 'car.tyres.size', ''],
    [{ tyres: { dryPeek: 1, size: '165/80 R 13' } }, 'car.tyres.dryPeek', 'did you mean "dryPeak"?'],
    [{ tyres: { dry_peek: 1, size: '165/80 R 13' } }, 'car.tyres.dry_peek', 'did you mean "dry_peak"?'],
    [{ weight: 3 }, 'car.weight', 'did you mean "mass"?'],
    [{ drive: { ...data.drive, ratio: [1] } }, 'car.drive.ratio', 'is a list'],
    [{ drive: { ...data.drive, unit: { torqueTable: 'unit.csv' } } }, 'car.drive.unit.torqueTable', 'no file'],
    [{ drive: { ...data.drive, unit: { peakTorque: 200 } } }, 'car.drive.unit.peakPower', 'is missing'],
    [{ pack: 3 }, 'car.pack', ''],
  ])('%#: has its path as it is written', (more, path, words) => {
    const error = refusal(more);
    expect(error.path).toBe(path);
    expect(error.message.startsWith(`${path}: `)).toBe(true);
    expect(error.message).toContain(words);
  });

  it('is told all at once', () => {
    const lines = refusal({ mass: '3', pack: { serie: 4 } }).message.split('\n');
    const paths = new Set(lines.map(line => line.split(':')[0]));
    expect(paths).toEqual(new Set(['car.mass', 'car.pack.cell', 'car.pack.parallel', 'car.pack.serie']));
  });

  it.each(['{', '[]', '3', 'null'])('%s is no car', text => {
    expect(() => readCar(text)).toThrow(SpecError);
  });
});

it('every unit of a field is one that its bare numbers are read in', () => {
  const units = (fields: Fields): readonly string[] =>
    Object.values(fields).flatMap(field => {
      if (field.kind === 'group' || field.kind === 'groups') return units(field.fields);
      return field.kind === 'number' || field.kind === 'numbers' ? [field.unit] : [];
    });
  for (const unit of new Set(units(carFields)))
    if (unit !== '1') expect(readQuantity(`0.5 ${unit}`, unit).value).toBe(0.5);
});

it('a torque table is read from a file that a unit names, and by itself', () => {
  const text = 'speed [rpm],torque [N m]\n0,200\n3000,200\n6000,150\n12000,75\n';
  const { table } = readTorqueTable(text, 'unit.csv');
  expect(table.torque).toEqual([200, 200, 150, 75]);
  const unit = { torqueTable: 'unit.csv' };
  const { car } = readCar({ ...data, drive: { ...data.drive, unit } }, { readFile: () => text });
  expect(car.drives[0]?.unit.table?.speed).toEqual(table.speed);
});
