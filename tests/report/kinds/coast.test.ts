import { describe, expect, it } from 'vitest';
import { coastReport, coastWords } from '../../../src/report/kinds/coast.ts';
import { writeReport } from '../../../src/report/report.ts';
import { terminalSummary } from '../../../src/report/terminal.ts';
import { coast } from '../../../src/runs/coast/coast.ts';
import { testCar, testDay } from '../../cars.ts';
import { outcome } from '../fixture.ts';
import { faults } from '../well-formed.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const options = { surroundings: testDay, from: 120 / 3.6, to: 20 / 3.6, lift: null };
const free = coast(testCar, options);
const lifted = coast(testCar, { ...options, lift: 1 });
const hill = coast(testCar, { ...options, surroundings: { ...testDay, slope: -0.1 } });
const book = outcome({
  blocks: [free, lifted, hill].map((result, i) => ({
    kind: 'cell',
    cell: 'coast',
    name: ['free', 'lifted', 'hill'][i] ?? '',
    line: 3 + 10 * i,
    source: '',
    problem: null,
    result,
    values: [],
    chart: null,
    checks: [],
  })),
  problems: [],
  failedChecks: 0,
});

describe('what is said of a coast-down', () => {
  it('is how long, how far, what slows it, and what comes back', () => {
    expect(plain(coastWords(free, 'metric'))).toMatch(
      /^10\d\.\d s from 120 km\/h to 20\.0 km\/h, over 16\d\d m, 0\.\d+ m\/s² on average\. \d+ N slow it at the start, \d+ N at the end\.$/u,
    );
    expect(plain(coastWords(lifted, 'metric'))).toMatch(
      / Wh come back into the pack, \d\d(\.\d)? % of the energy of motion\.$/u,
    );
    expect(coastReport.card(free, 'metric')?.headline?.of.replaceAll('\u00a0', ' ')).toBe(
      'to coast from 120 km/h to 20.0 km/h',
    );
  });

  it('is the reason where it does not slow down', () => {
    expect(plain(coastWords(hill, 'metric'))).toBe(
      'No coast-down: at 120 km/h the car does not slow down: slope or wind push as hard as all else holds it back.',
    );
  });

  it('makes a page that is well formed, and stands in the terminal', async () => {
    const page = await writeReport(book);
    expect(faults(page)).toEqual([]);
    expect(page).toContain('The coast-down');
    expect(page).toContain('A coast-down is driven on a closed course');
    expect(plain(terminalSummary(book, { color: false, width: 100 })).replaceAll(/\s+/gu, ' ')).toContain(
      'slow it at the start',
    );
  });
});
