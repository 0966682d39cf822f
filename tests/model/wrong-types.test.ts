/** What is of the wrong kind in a program: an error with its path, never a TypeError. */
import { describe, expect, it } from 'vitest';
import {
  completeCar,
  readTyreSize,
  ScheduleError,
  scheduleNamed,
  scheduleOf,
  SpecError,
  tripThrough,
} from '../../src/index.ts';
import type { CarSpec } from '../../src/index.ts';

const unit = { tableSpeed: [0, 300, 600, 1200], tableTorque: [200, 200, 150, 75] };
const spec = {
  mass: 1180,
  tyres: { size: '175/70 R 13' },
  drive: { axle: 'rear', unit, ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
} satisfies CarSpec;

function complaint(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof SpecError || error instanceof ScheduleError) return error.message;
    throw error;
  }
  throw new Error('was taken');
}

describe('a car', () => {
  it.each([
    [{ mass: '1240 kg' }, 'mass: is a text, "1240 kg"; expected a number in kg, or a text through readCar'],
    [{ mass: null }, 'mass: is nothing; expected a number in kg'],
    [{ dragCoefficient: true }, 'dragCoefficient: is true; expected a pure number'],
    [{ tyres: { size: 165 } }, 'tyres.size: is 165; expected a text'],
    [{ tyres: 3 }, 'tyres: is 3; expected a group of fields'],
    [{ pack: [] }, 'pack: is a list; expected a group of fields'],
    [{ drive: { ...spec.drive, axle: 4 } }, 'drive.axle: is 4; expected one of front, rear, both'],
    [
      { drive: { ...spec.drive, unit: { ...unit, tableSpeed: 3 } } },
      'drive.unit.tableSpeed: is 3; expected a list of numbers in rad/s',
    ],
    // 12,000 rpm by mistake for rad/s.
    [
      { drive: { ...spec.drive, unit: { ...unit, tableSpeed: [0, 3000, 6000, 12_000] } } },
      'drive.unit.tableSpeed: has 6000 at [2]; expected 0 to 4188.79 rad/s',
    ],
  ])('%#: says what stands there, and what should', (more, message) => {
    expect(complaint(() => completeCar({ ...spec, ...more } as unknown as CarSpec))).toContain(message);
  });

  it('notes what hardly any car has', () => {
    const { notes } = completeCar({ ...spec, mass: 12_400, dragArea: 6.2 });
    expect(notes.join(';')).toContain('mass: 12400 kg is unusual, 300 kg to 3500 kg is what cars have');
    expect(notes.join(';')).toMatch(/dragArea: 6\.2 m\S+ is unusual/u);
    expect(completeCar({ ...spec, drive: { ...spec.drive, unit: 'unit_100kw' } }).notes).toEqual([]);
  });
});

describe('a schedule', () => {
  const drawn = { time: [0, 10], speed: [0, 10] };

  it.each([
    [() => scheduleNamed('WLTC' as never), 'name: no schedule is called "WLTC"; did you mean "wltc"?'],
    [() => scheduleNamed('x' as never), 'expected one of wltc'],
    [() => scheduleOf({ ...drawn, sloep: [1] } as never), 'sloep: is no column; did you mean "slope"?'],
    [() => scheduleOf({ time: [0, 1] } as never), 'speed: is no list of numbers'],
    [() => tripThrough('x', scheduleOf(drawn) as never), 'parts: are no list'],
    [
      () => tripThrough('x', [scheduleOf(drawn), { kind: 'stpo', seconds: 3 } as never]),
      'parts[1].kind: is stpo; expected leg or stop',
    ],
    [() => tripThrough('x', ['wltc' as never]), 'parts[0]: is string; expected a schedule'],
    [() => tripThrough('x', [{ kind: 'leg' } as never]), 'parts[0]: is no schedule'],
  ])('%#: says what is wrong with it', (work, message) => {
    expect(complaint(work)).toContain(message);
  });
});

describe('a torque table', () => {
  const notesWith = (more: object) => {
    const { notes, inputs, car } = completeCar({ ...spec, drive: { ...spec.drive, unit: { ...unit, ...more } } });
    return { notes: notes.join(';'), inputs, car };
  };

  it('gives the greatest speed, and says that it does', () => {
    const { inputs, car } = notesWith({});
    expect(car.drives[0]?.unit.maxSpeed).toBe(1200);
    const origin = inputs.find(({ path }) => path === 'drive.unit.max_speed')?.origin;
    expect(origin).toEqual({ kind: 'computed', formula: 'the last speed of the torque table' });
  });

  it('says where its torque is bent down to nothing, and not where it comes down by itself', () => {
    // 0.96 of 1,200 rad/s is 11001 rpm.
    expect(notesWith({}).notes).toContain('from 11001 rpm on its torque goes in a straight line to nothing');
    expect(notesWith({ tableTorque: [200, 200, 150, 0] }).notes).toBe('');
  });

  it('says what of the ratings it takes the place of', () => {
    const { notes } = notesWith({ peakTorque: 100, peakPower: 4000 });
    expect(notes).toContain('the torque table takes the place of peak_torque');
    expect(notes).toContain('the torque table takes the place of peak_power');
  });

  it('goes on at the power of its last point where the motor turns faster, and says so', () => {
    const { notes, car } = notesWith({ maxSpeed: 1500 });
    expect(notes).toContain(
      'ends at 11459 rpm; from there to max_speed, 14324 rpm, the power of its last point is held, 90 kW',
    );
    const { table, peakPower } = car.drives[0]!.unit;
    const powers = table!.speed.map((speed, i) => speed * table!.torque[i]!);
    expect(table!.speed.at(-1)).toBeCloseTo(1500, 9);
    for (const power of powers.slice(-9)) expect(power).toBeCloseTo(90_000, 6);
    // No more power than was measured.
    expect(Math.max(...powers)).toBeLessThanOrEqual(peakPower);
  });

  it('questions speeds that hardly any motor has', () => {
    expect(notesWith({ tableSpeed: [0, 500, 1000, 3000] }).notes).toContain('is its speed in another unit?');
  });
});

it('a tyre size is a text', () => {
  expect(() => readTyreSize(165 as never)).toThrow('165 is no size');
});
