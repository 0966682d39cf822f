import { describe, expect, it } from 'vitest';
import { chargeAnswer, chargeWords } from '../../../src/report/kinds/charge.ts';
import { writeReport } from '../../../src/report/report.ts';
import { terminalSummary } from '../../../src/report/terminal.ts';
import { charge } from '../../../src/runs/charge/charge.ts';
import type { Result } from '../../../src/runs/result.ts';
import { testCar } from '../../cars.ts';
import { outcome } from '../fixture.ts';
import { faults } from '../well-formed.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const box = { voltage: 230, current: 16, phases: 1 };
const options = { from: 0.2, to: 0.9, supply: box, temperature: 293.15 };
const night = charge(testCar, { ...options, consumption: { energy: 684, at: 'wall' }, price: 0.3 / 3.6e6 });
const frost = charge(testCar, { ...options, temperature: 260 });
const book = outcome({
  blocks: [night, frost].map((result, i) => ({
    kind: 'cell',
    cell: 'charge',
    name: ['a_night', 'a_frost'][i]!,
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

describe('the answer of a charge', () => {
  it('is one sentence: how long, from where to where, at what current, how much range per hour', () => {
    // 0.7 of 60 Ah at 357 V is 15 kWh in the cells, 3.16 kW into the pack: 4 h 45 min, and the heat in the pack on top.
    expect(plain(chargeAnswer(night, 'metric'))).toBe('4 h 49 min from 20 % to 90 % at 16 A, 19 km of range per hour.');
    expect(plain(chargeAnswer(night, 'imperial'))).toContain(', 12 miles of range per hour.');
  });

  it('counts the phases', () => {
    const three = { ...testCar, charger: { ...testCar.charger, power: 3680, count: 3 } };
    const result = charge(three, { ...options, supply: { ...box, phases: 3 } });
    expect(plain(chargeAnswer(result, 'metric'))).toContain('at 3 × 16 A.');
  });

  it('says why there is none, or why it ends short', () => {
    expect(chargeAnswer(frost, 'metric')).toMatch(/^No charge: the pack is too cold/);
    const low = { ...testCar, pack: { ...testCar.pack, maxVoltage: 380 } };
    expect(plain(chargeAnswer(charge(low, options), 'metric'))).toMatch(
      / to 7\d % at 16 A; the highest voltage .* C\/20\.$/,
    );
  });

  it('is followed by what it takes from the wall, what it costs and what sets the pace', () => {
    const words = plain(chargeWords(night, 'metric'));
    expect(words).toMatch(/17\.\d kWh come from the wall, which cost 5\.\d\d; 8\d % of it is stored\./);
    expect(words).toContain('The supply sets the pace');
  });

  it.each(['supply', 'charger', 'pack current', 'cold', 'heat', 'cell voltage', 'charger current'])(
    'explains the pace of %s',
    word => {
      const paced: Result = { ...night, summary: { ...night.summary, paced_by: word } };
      expect(chargeWords(paced, 'metric')).toContain('sets the pace for most of the time');
    },
  );
});

describe('the report of charges', () => {
  it('is well-formed, answers first, has the table of times and the caution', async () => {
    const page = await writeReport(book);
    expect(faults(page)).toEqual([]);
    expect(page).not.toMatch(/NaN|undefined|could not be drawn/);
    const answer = plain(page.slice(page.indexOf('id="answer"'), page.indexOf('id="workings"')));
    expect(answer).toContain('<b>4 h 49 min</b> <span>from 20 % to 90 %</span>');
    expect(answer).toContain('No charge: the pack is too cold');
    expect(page).toContain('<caption>Time from one state of charge to another, in hours and minutes</caption>');
    expect(plain(page)).toMatch(/<th scope="row">80 %<\/th>(<td><\/td>){6}<td>0:\d\d<\/td>/);
    expect(page).toContain('Charging loads a circuit for hours');
    expect(page).toContain('licensed electrician');
    expect(plain(page)).toMatch(/stands at up to 3\d\d V/);
  });

  it('has no caution on charging where nothing is charged', async () => {
    expect(await writeReport(outcome({ problems: [], failedChecks: 0 }))).not.toContain('Charging loads a circuit');
  });

  it.each([40, 72])('fits into a terminal of %i characters', width => {
    const text = terminalSummary(book, { color: false, width });
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(width);
    expect(text.replace(/\s+/g, ' ')).toContain('4 h 49 min from 20 % to 90 % at 16 A');
  });
});
