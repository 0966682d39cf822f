/** Words of a stranger in tables that a spreadsheet opens, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

it('a thing whose name a spreadsheet would reckon out stays a word in its table', () => {
  const names = ['=1+1', '@SUM(A1)', '-cmd', 'box'];
  const text = [
    '```yaml weigh plan',
    'scales: { front: 470 kg, rear: 390 kg }',
    'wheelbase: 2.40 m',
    'in:',
    ...names.map((name, k) => `  - { name: "${name}", mass: ${20 + k} kg, x: 1 m, height: 0.4 m }`),
    '```',
    '',
  ].join('\n');
  const called = command({ 'a.md': text }, ['run', 'a.md', '--csv', '--samples', '0']);
  expect(called.code).toBe(0);
  const rows = called.read('out/a.plan.items.csv').split('\r\n');
  const words = rows.slice(1, 1 + names.length).map(row => row.split(',')[0]);
  // The signs are those of OWASP, "CSV Injection" (from memory).
  expect(words).toEqual(["'=1+1", "'@SUM(A1)", "'-cmd", 'box']);
});
