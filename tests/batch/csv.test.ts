import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dsvFormat } from 'd3-dsv';
import { expect, it } from 'vitest';
import { exportCsv } from '../../src/batch/csv.ts';
import { runJob } from '../../src/batch/run.ts';
import { tableHere } from '../../src/batch/table.ts';
import { testEvaluators } from './evaluators.ts';
import { here, mix, testFolder } from './place.ts';

const file = testFolder();
const rowsOf = (name: string): string[][] =>
  dsvFormat(',').parseRows(readFileSync(file(name), 'utf8'), fields => [...fields]);

it('writes numbers that read back as the same numbers', async () => {
  const job = { ...mix(200), columns: ['row number', 'a "quoted", name', 'b'] };
  const store = file('a.rows');
  await runJob(job, { ...here, store });
  expect(exportCsv(store, file('a.csv'))).toBe(200);
  const [header, ...rows] = rowsOf('a.csv');
  const table = tableHere(job, testEvaluators);
  expect(header).toEqual(['row', ...job.columns, 'code']);
  expect(rows).toHaveLength(200);
  const expected = Array.from({ length: 200 }, (_, row) => row);
  expect(rows.map(row => Number(row[0]))).toEqual(expected);
  job.columns.forEach((name, k) => {
    const read = rows.map(row => (row[k + 1] === '' ? Number.NaN : Number(row[k + 1])));
    expect(read).toEqual(Array.from(table.column(name), value => (Number.isFinite(value) ? value : Number.NaN)));
  });
  expect(Object.is(Number(rows[5]?.[2]), -0)).toBe(true);
  expect(rows.map(row => row.at(-1))).toEqual(expected.map(row => table.code(row)));
});

it('writes the rows of a part with their numbers in the job', async () => {
  const store = file('part.rows');
  await runJob(mix(10), { ...here, store, shard: { number: 2, count: 4 } });
  exportCsv(store, file('part.csv'));
  expect(rowsOf('part.csv').map(row => row[0])).toEqual(['row', '1', '5', '9']);
});

it('says what is no file of rows, and leaves nothing behind', () => {
  expect(() => exportCsv(file('nowhere.rows'), file('b.csv'))).toThrow(/cannot read .*nowhere\.rows/u);
  writeFileSync(file('empty.rows'), '');
  expect(() => exportCsv(file('empty.rows'), file('b.csv'))).toThrow('has no rows yet');
  expect(existsSync(file('b.csv'))).toBe(false);
});
