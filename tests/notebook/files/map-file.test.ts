import { describe, expect, it } from 'vitest';
import { readLossTable, readTorqueTable } from '../../../src/notebook/files/map-file.ts';
import { NotebookProblem, problemText } from '../../../src/notebook/document/problem.ts';

const RPM = Math.PI / 30;

function complaint(step: () => unknown): string {
  try {
    step();
  } catch (error) {
    if (error instanceof NotebookProblem) return problemText({ ...error.data, source: '' });
    throw error;
  }
  return 'nothing';
}

const HEADER = 'speed_rpm,torque_N_m,efficiency_%';
const map = (rows: readonly string[], header = HEADER) => readLossTable([header, ...rows].join('\n'), 'unit.csv');
const GOOD = ['1000,10,80', '1000,20,85', '1000,30,86', '2000,10,82', '2000,20,88', '2000,30,90'];
const without = (...lines: readonly number[]) => GOOD.filter((_, k) => !lines.includes(k));
const changed = (line: number, row: string) => GOOD.with(line, row);

describe('a map file', () => {
  it('becomes losses in W on its axes in SI', () => {
    const { table, notes } = map(GOOD);
    expect(table.voltage).toEqual([]);
    expect(table.speed.map(w => Math.round(w / RPM))).toEqual([1000, 2000]);
    expect(table.torque).toEqual([10, 20, 30]);
    expect(table.loss[0]).toBeCloseTo(10 * 1000 * RPM * (1 / 0.8 - 1), 9);
    expect(table.loss[4]).toBeCloseTo(20 * 2000 * RPM * (1 / 0.88 - 1), 9);
    expect(notes).toEqual([]);
  });

  it('may run through the speeds of each torque as well', () => {
    const turned = ['1000,10,80', '2000,10,82', '1000,20,85', '2000,20,88', '1000,30,86', '2000,30,90'];
    expect(map(turned).table).toEqual(map(GOOD).table);
  });

  it('may state losses, and voltages', () => {
    const rows = [300, 400].flatMap(V =>
      [0, 1000].flatMap(n => [0, 10, 20].map(T => `${V},${n},${T},${(V + n + T) / 1000}`)),
    );
    const { table } = map(rows, 'voltage_V,speed_rpm,torque_N_m,loss_kW');
    expect(table.voltage).toEqual([300, 400]);
    expect(table.loss.map(loss => Math.round(loss ?? 0))).toEqual([
      300, 310, 320, 1300, 1310, 1320, 400, 410, 420, 1400, 1410, 1420,
    ]);
  });

  it('leaves out what lies beyond the torque of the unit, as a missing row or an empty cell', () => {
    for (const rows of [without(5), changed(5, '2000,30,')]) {
      const { table } = map(rows);
      expect(table.loss[5]).toBeNull();
      expect(table.loss.filter(loss => loss === null)).toHaveLength(1);
    }
  });

  it('measures braking by what comes back', () => {
    const rows = [1000, 2000].flatMap(n => [-20, -10, 10, 20].map(T => `${n},${T},${T < 0 ? 70 : 80 + T / 10}`));
    const { table } = map(rows);
    expect(table.torque).toEqual([-20, -10, 10, 20]);
    expect(table.loss[0]).toBeCloseTo(20 * 1000 * RPM * 0.3, 9);
  });

  it('passes over efficiencies at standstill and zero torque, and says so', () => {
    const rows = ['0,0,0', '0,10,0', '0,20,', '0,30,0', '1000,0,0', ...GOOD.slice(0, 3), '2000,0,0', ...GOOD.slice(3)];
    const { table, notes } = map(rows);
    expect(table).toEqual(map(GOOD).table);
    expect(notes).toEqual(['unit.csv: the efficiency of 6 rows at standstill or zero torque says nothing']);
  });

  it('counts rows that stand twice', () => {
    expect(map(GOOD.flatMap(row => [row, row])).notes).toEqual(['unit.csv: 6 rows stand twice']);
  });

  it.each([
    [without(1), 'unit.csv:3:6: there is no efficiency for 1000 rpm, 20 N m; expected each of the 2 x 3 points'],
    [changed(1, '1000,20,'), 'unit.csv:3:9: the efficiency is empty'],
    [without(2), 'unit.csv:4:6: there is no efficiency for 1000 rpm, 30 N m'],
    [without(3), 'unit.csv:5:6: there is no efficiency for 2000 rpm, 10 N m'],
    [
      changed(1, '1000,10,81'),
      'unit.csv:3:9: the same point as line 2 with another efficiency; expected each point once',
    ],
    [
      changed(3, '500,10,82'),
      'unit.csv:5:1: the speed falls from 1000 rpm to 500 rpm; expected rows that rise in speed, then torque',
    ],
    [changed(2, '1000,15,86'), 'unit.csv:4:6: the torque falls from 20 N m to 15 N m'],
    [changed(4, '2000,20,101'), 'unit.csv:6:9: an efficiency of 101 %; expected above 0, at most 100 %'],
    [changed(4, '2000,20,0'), 'unit.csv:6:9: an efficiency of 0 %'],
    [changed(4, '2000,20,-5'), 'unit.csv:6:9: an efficiency of -5 %'],
    [changed(4, '-2000,20,80'), 'unit.csv:6:1: a negative speed'],
    [changed(1, '1000,20,35'), 'unit.csv:4:9: more torque takes less power here than 20 N m does'],
    [changed(4, '2000.0001,20,88'), 'unit.csv:6:1: this speed and another one differ by 5e-8 of the largest'],
    [GOOD.map(row => row.replace(/,(\d+)$/u, ',0.$1')), 'unit.csv:2:9: no efficiency is above 0.9 %'],
    [GOOD.slice(0, 3), 'unit.csv:2:1: the map has one speed only'],
    [['1000,10,80', '2000,10,82'], 'unit.csv:2:6: the map has fewer than two torques above 0'],
    [['0,10,80', '1000,0,80'], 'unit.csv:2:6: no row has both a speed and a torque'],
    [Array.from({ length: 60 }, (_, k) => `${1000 + k},${10 + k},80`), '60 rows for a grid of 60 x 60 points'],
  ])('complains of %j', (rows, message) => {
    expect(complaint(() => map(rows))).toContain(message);
  });

  it.each([
    ['speed_rpm,torque_N_m', 'no column of efficiency or loss; expected efficiency [%]'],
    ['speed_rpm,efficiency_%', 'the header has no column of torque; expected torque [N m]'],
    ['speed_rpm,loss_W', 'the header has no column of torque'],
    ['torque_N_m,loss_W', 'the header has no column of speed'],
  ])('complains of the header %s', (header, message) => {
    expect(complaint(() => map(['1,2'], header))).toContain(message);
  });

  it('complains of a negative loss, of shares under the wrong unit and of both columns', () => {
    expect(complaint(() => map(['1,2,-3'], 'speed_rpm,torque_N_m,loss_W'))).toContain('unit.csv:2:5: a negative loss');
    expect(complaint(() => map(['1,2,90'], 'speed_rpm,torque_N_m,efficiency_1'))).toContain(
      'an efficiency of 90; expected above 0, at most 1; percentages stand under efficiency [%]',
    );
    expect(complaint(() => map(['1,2,90,3'], 'speed_rpm,torque_N_m,efficiency_%,loss_W'))).toContain(
      'unit.csv:2:8: both an efficiency and a loss',
    );
  });
});

describe('a torque table file', () => {
  const torque = (text: string) => readTorqueTable(text, 'torque.csv');

  it('is read for one voltage and for several', () => {
    const one = torque('speed_rpm,torque_N_m\n0,200\n3000,190\n9000,60').table;
    expect(one.voltage).toEqual([]);
    expect(one.torque).toEqual([200, 190, 60]);
    expect(one.speed[2]).toBeCloseTo(9000 * RPM, 9);
    const several = torque('speed_rpm,torque_N_m,voltage_V\n0,200,300\n0,210,400\n3000,90,300\n3000,120,400').table;
    expect(several.voltage).toEqual([300, 400]);
    expect(several.torque).toEqual([200, 90, 210, 120]);
    const same = torque('voltage_V,speed_rpm,torque_N_m\n300,0,200\n300,3000,190');
    expect(same.table.voltage).toEqual([]);
    expect(same.notes).toEqual(['torque.csv: the torque is the same at every voltage, as the table has one only']);
  });

  it.each([
    ['0,200\n3000,-1', 'torque.csv:3:6: a negative peak torque'],
    ['100,200\n3000,1', 'torque.csv:2:1: the table does not start at standstill; expected a row for speed 0'],
    ['0,200', 'torque.csv:2:1: the table has one speed only'],
    ['0,200\n3000,190\n2000,190', 'torque.csv:4:1: the speed falls from 3000 rpm to 2000 rpm'],
    ['0,200\n3000,190\n3000,191', 'torque.csv:4:6: the same point as line 3 with another torque'],
  ])('complains of %j', (rows, message) => {
    expect(complaint(() => torque(`speed_rpm,torque_N_m\n${rows}`))).toContain(message);
  });

  it('complains of a gap at one of the voltages', () => {
    expect(complaint(() => torque('voltage_V,speed_rpm,torque_N_m\n300,0,200\n300,3000,190\n400,0,200'))).toContain(
      'torque.csv:4:5: there is no torque for 400 V, 3000 rpm',
    );
  });
});
