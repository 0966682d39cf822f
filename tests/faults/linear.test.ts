/**
 * Readers of what a stranger wrote take time in proportion to its length. Held by the ratio of two lengths, 1 to 16, in time
 * of the processor: in proportion it is 16, the square is 256. What is above 100 is not in proportion; rubbish that is collected
 * in the longer run only, on a busy machine, is below.
 */
import { expect, it } from 'vitest';
import { LogError, readLog } from '../../src/cycles/log.ts';
import { createLineCutter } from '../../src/cycles/log/lines.ts';
import { parseDocument } from '../../src/notebook/document/document.ts';
import { readYaml } from '../../src/notebook/document/located.ts';
import { orderCells } from '../../src/notebook/document/order.ts';
import { NotebookProblem } from '../../src/notebook/document/problem.ts';
import { type CsvColumn, readCsv } from '../../src/notebook/files/csv.ts';
import { parseAssignments } from '../../src/notebook/formula/formula.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { readQuantity, UnitError } from '../../src/units.ts';

const COLUMNS: readonly CsvColumn[] = [
  { name: 'speed', unit: 'rad/s', examples: 'speed [rpm]' },
  { name: 'torque', unit: 'N m', examples: 'torque [N m]' },
];
const csv = (text: string) => (): unknown => readCsv(text, 'a.csv', COLUMNS);
const log = (text: string) => (): unknown => readLog(text);
const cut = (text: string) => (): unknown => createLineCutter(() => {}).push(text);
const file = { file: 'a.md', line: 1 };

/** Where a text may be told off as too long, only its length below that counts. */
const CASES: { readonly [what: string]: (n: number) => () => unknown } = {
  'blanks in the header of a table': n => csv(`speed${' '.repeat(n)}!,torque [N m]\n1,2\n`),
  'blanks behind the unit in a header': n => csv(`speed [rpm${' '.repeat(n)}],torque [N m]\n1,2\n`),
  'brackets in the header of a table': n => csv(`speed ${'('.repeat(n)},torque [N m]\n1,2\n`),
  'digits in a table': n => csv(`speed [rpm],torque [N m]\n${'1'.repeat(n)}x,2\n`),
  'blanks in a table': n => csv(`speed [rpm],torque [N m]\n1${' '.repeat(n)}x,2\n`),
  'rows of a table': n => csv(`speed [rpm],torque [N m]\n${'1,2\n'.repeat(n)}`),
  'digits in a log': n => log(`time_s,speed_km_h\n${'1'.repeat(n)}x,2\n`),
  'blanks in a log': n => log(`time_s,speed_km_h\n${' '.repeat(n)}x,2\n`),
  'dashes in a log': n => log(`time_s,speed_km_h\n${'-'.repeat(n)}x,2\n`),
  'blanks in the header of a log': n => log(`time_s,speed${' '.repeat(n)}!\n1,2\n`),
  'lines that end with CR': n => cut('1,2\r'.repeat(n)),
  'lines that end with CR LF': n => cut('1,2\r\n'.repeat(n)),
  'dots in a quantity': n => () => readQuantity('.'.repeat(n), 'kg'),
  'digits in a quantity': n => () => readQuantity(`${'1'.repeat(n)}x`, 'kg'),
  'commas in a quantity': n => () => readQuantity('1,'.repeat(n), 'kg'),
  'groups of digits in a quantity': n => () => readQuantity(`1${' 000'.repeat(n)}x`, 'kg'),
  'values in a line of YAML': n => () => readYaml(`a: [${'1, '.repeat(n / 8)}1]`, file),
  'names in YAML': n => () => readYaml(Array.from({ length: n / 8 }, (_, k) => `k${k}: 1`).join('\n'), file),
  'names in a line of YAML': n => () =>
    readYaml(`{${Array.from({ length: n / 8 }, (_, k) => `k${k}: 1`).join(', ')}}`, file),
  'lines of formulas': n => () => parseAssignments(Array.from({ length: n / 8 }, (_, k) => `v${k} = 1 m`).join('\n')),
  'cells that need one other': n => () =>
    orderCells(Array.from({ length: n / 4 }, (_, k) => ({ name: `c${k}`, needs: k === 0 ? [] : ['c0'] }))),
  'rows of a Markdown table': n => () => parseDocument(`|a|b|\n|-|-|\n${'|1|2|\n'.repeat(n / 4)}`, 'a.md', []),
  'results quoted over the end of a line': n => () => runNotebook('`= 1 +\n 2`\n\n'.repeat(n / 4), { file: 'a.md' }),
};

function seconds(work: () => unknown): number {
  const start = process.cpuUsage();
  try {
    work();
  } catch (error) {
    if (!(error instanceof UnitError || error instanceof NotebookProblem || error instanceof LogError)) throw error;
  }
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}

it.each(Object.keys(CASES))('%s', what => {
  const make = CASES[what];
  if (make === undefined) throw new Error(what);
  const [short, long] = [make(4000), make(64_000)];
  seconds(short);
  const least = Math.min(seconds(short), seconds(short), seconds(short));
  // What takes less than 10 ms in all is not measured: the square of 64,000 takes seconds.
  expect(seconds(long) / Math.max(least, 0.0001)).toBeLessThan(100);
});
