import { describe, expect, it } from 'vitest';
import { type CsvColumn, readCsv } from '../../../src/notebook/files/csv.ts';
import { NotebookProblem, problemText } from '../../../src/notebook/document/problem.ts';

const COLUMNS: readonly CsvColumn[] = [
  { name: 'speed', unit: 'rad/s', examples: 'speed [rpm] or speed [rad/s]' },
  { name: 'torque', unit: 'N m', examples: 'torque [N m] or torque [lbf ft]' },
  { name: 'efficiency', unit: '1', examples: 'efficiency [%] or efficiency [1]', blank: true },
];
const RPM = Math.PI / 30;

const read = (text: string) => readCsv(text, 'unit.csv', COLUMNS);

function complaint(text: string): string {
  try {
    read(text);
  } catch (error) {
    if (error instanceof NotebookProblem) return problemText(error.data);
    throw error;
  }
  return 'nothing';
}

describe('a CSV table', () => {
  it.each([
    ['speed_rpm,torque_N_m,efficiency_%', 'an underscore, as in the tables written out'],
    ['speed [rpm], torque [N m], efficiency [%]', 'brackets'],
    ['Speed (1/min),Torque (Nm),Efficiency (%)', 'parentheses and capitals'],
    ['speed rpm,torque N m,efficiency %', 'a space'],
    ['"speed_rpm","torque_Nm","efficiency_%"', 'quotes'],
    ['\uFEFFspeed_rpm,torque_N_m,efficiency_%', 'a byte order mark'],
  ])('reads the header %s', header => {
    const table = read(`${header}\n3000,40,90.5\n`);
    expect(table.rows).toBe(1);
    expect(table.column('speed')[0]).toBeCloseTo(3000 * RPM, 10);
    expect(table.column('torque')[0]).toBe(40);
    expect(table.column('efficiency')[0]).toBeCloseTo(0.905, 14);
    expect(table.notes).toEqual([]);
  });

  it('takes other units, and shows values in the unit of the file', () => {
    const table = read('speed_rad_s,torque_lbf_ft,efficiency_1\n100,50,0.9');
    expect(table.column('speed')[0]).toBe(100);
    // NIST Special Publication 811, appendix B.8: 1 lbf ft is 1.355818 N m.
    expect(table.column('torque')[0]).toBeCloseTo(50 * 1.355818, 4);
    expect(table.shown('torque', table.column('torque')[0]!)).toBe('50 lbf ft');
    expect(table.shown('speed', 100)).toBe('100 rad/s');
    expect(table.shown('efficiency', 0.9)).toBe('0.9');
  });

  it('passes over blank lines, keeps line numbers, and takes an empty cell where it may be one', () => {
    const table = read('speed_rpm,torque_N_m,efficiency_%\r\n\r\n1000,10,80\r\n2000,10,\r\n\r\n');
    expect(table.rows).toBe(2);
    expect(table.column('efficiency')[1]).toBeNaN();
    expect([table.line(0), table.line(1)]).toEqual([3, 4]);
    expect(table.place(1, 'torque')).toEqual({
      file: 'unit.csv',
      line: 4,
      column: 6,
      length: 2,
      source: '2000,10,',
    });
    expect(table.has('loss')).toBe(false);
    expect(() => table.column('loss')).toThrow(RangeError);
  });

  it('reads semicolons with decimal commas, and tabs, and says so', () => {
    const commas = read('speed_rpm;torque_N_m;efficiency_%\n1000,5;10;80,25\n2000;"10";81,125');
    expect(commas.column('speed')[0]).toBeCloseTo(1000.5 * RPM, 10);
    expect(commas.column('efficiency')[1]).toBeCloseTo(0.81125, 12);
    expect(commas.notes).toEqual(['unit.csv: semicolons set off the columns, commas are decimal points']);
    const tabs = read('speed_rpm\ttorque_N_m\tefficiency_%\n1000.5\t10\t80.25');
    expect(tabs.column('efficiency')[0]).toBeCloseTo(0.8025, 12);
    expect(tabs.notes).toEqual(['unit.csv: tabs set off the columns']);
    expect(read('speed_rpm;torque_N_m;efficiency_1\n1000;10;0,905').column('efficiency')[0]).toBe(0.905);
  });

  const H = 'speed_rpm,torque_N_m,efficiency_%\n';
  it.each([
    ['', 'unit.csv:1:1: the header names a single column; expected names with units'],
    ['speed_rpm\n1', 'unit.csv:1:1: the header names a single column'],
    ['speed_rpm;torque_N_m,efficiency_%\n', 'unit.csv:1:1: the header has more than one kind of separator'],
    ['speed_rpm,torque_N_m', 'unit.csv:1:1: the table has no rows'],
    ['speed_rpm,torqe_N_m\n1,2', 'unit.csv:1:11: unknown column "torqe_N_m"; expected speed [rpm] or'],
    ['speed_rpm,torqe_N_m\n1,2', 'did you mean "torque"?'],
    ['speed_rpm,torque\n1,2', 'unit.csv:1:11: the column torque has no unit; expected torque [N m] or'],
    ['speed_rpm,torque_W\n1,2', 'unit.csv:1:11: "W" is no unit of the column torque; expected torque [N m]'],
    ['speed [km/h],torque_N_m\n1,2', 'unit.csv:1:1: "km/h" is no unit of the column speed'],
    ['speed [Hz],torque_N_m\n1,2', 'unit.csv:1:1: "Hz" is no unit of the column speed'],
    ['speed_rpm,torque_N_m,speed_rpm\n1,2,3', 'unit.csv:1:22: a second column of speed'],
    [`${H}1,2,3\n1,2\n`, 'unit.csv:3:3: a row of 2 cells; expected 3, as in the header'],
    [`${H}1,2,3,5\n`, 'unit.csv:2:5: a row of 4 cells; expected 3; where commas are decimal, semicolons'],
    [`${H}1,2,3\n1,x2,3`, 'unit.csv:3:3: "x2" is not a number; expected a number'],
    [`${H}1,2,NaN`, 'unit.csv:2:5: "NaN" is not a number; expected a number, or an empty cell'],
    [`${H}1,Infinity,3`, 'unit.csv:2:3: "Infinity" is not a number'],
    [`${H}1,0x10,3`, 'unit.csv:2:3: "0x10" is not a number'],
    [`${H}1, ,3`, 'unit.csv:2:3: the torque is empty'],
    [`${H}1,"2\n",3`, 'unit.csv:2:3: a cell with a line break; expected each row on one line'],
    ['speed_rpm,"torque\n_N_m"\n1,2', 'unit.csv:1:11: a cell with a line break'],
    [
      'speed_rpm;torque_N_m\n1,5;10\n2.5;10',
      'unit.csv:2:1: a decimal comma here, a decimal point in unit.csv:3; expected one of the two throughout',
    ],
    ['speed_rpm;torque_N_m\n1,000;10\n2,000;10', 'unit.csv:2:1: this comma may be decimal or set off thousands'],
  ])('complains of %j', (text, message) => {
    expect(complaint(text)).toContain(message);
  });

  it('shows the line with carets under the cell', () => {
    expect(complaint(`${H}1000,10,80\n2000, a b ,80`)).toBe(
      'unit.csv:3:7: "a b" is not a number; expected a number, for torque\n  2000, a b ,80\n        ^^^',
    );
  });
});
