import { describe, expect, it } from 'vitest';
import { writeReport } from '../../../src/report/report.ts';
import { steadyAnswer } from '../../../src/report/kinds/steady.ts';
import { standardAnswer } from '../../../src/report/kinds/standard.ts';
import { terminalSummary } from '../../../src/report/terminal.ts';
import { travelAnswer, travelWords } from '../../../src/report/kinds/trip.ts';
import { drive } from '../../../src/runs/trip/drive.ts';
import { range } from '../../../src/runs/trip/range.ts';
import type { Result } from '../../../src/runs/result.ts';
import { standardTest } from '../../../src/runs/standard/range-test.ts';
import { steady } from '../../../src/runs/trip/steady.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';
import { beginning, leg, profile, trip } from '../../trips.ts';
import { cell, outcome } from '../fixture.ts';
import { faults } from '../well-formed.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const car = withPackHeat(testCar);
const frost = { surroundings: { ...testDay, temperature: 268.15 } };
const town = drive(car, trip(beginning('wltc', 589)), frost);
const rush = drive(
  car,
  trip(
    profile([
      [0, 0],
      [3, 30],
      [20, 30],
      [23, 0],
    ]),
  ),
  frost,
);
const far = range(car, trip(beginning('wltc', 589)), { ...frost, temperatures: [253.15, 293.15] });
const none = range(car, trip(beginning('wltc', 589)), { ...frost, charge: 0.1, reserve: 0.5 });
const even = steady(car, { ...frost, speed: 25, speeds: [10, 20, 30] });
const lab = standardTest(car, 'udds');
const many = drive(car, trip(...Array.from({ length: 20 }, () => leg(beginning('wltc', 60)))), frost);
const results: readonly (readonly [string, Result])[] = [
  ['town', town],
  ['rush', rush],
  ['far', far],
  ['none', none],
  ['even', even],
  ['lab', lab],
  ['many', many],
];
const book = outcome({
  blocks: results.map(([name, result], i) => cell(result.kind, name, 3 + i, '', { result })),
  problems: [],
  failedChecks: 0,
});

describe('the answer of a trip', () => {
  it('is one sentence: how far, from where to where, in what air, at what consumption', () => {
    expect(plain(travelAnswer(town, 'metric'))).toMatch(
      /^3\.\d+ km in 10 min from 90 % to \d\d % at −5 °C \(trip\): \d+ Wh\/km at the pack, \d+ from the wall\.$/,
    );
    expect(plain(travelAnswer(far, 'metric'))).toMatch(
      /^\d+ km from \d\d % to \d+ % at −5 °C \(trip\): \d+ Wh\/km at the pack, \d+ from the wall\./,
    );
    expect(plain(travelAnswer(far, 'imperial'))).toMatch(/ at 23 °F \(trip\): \d+ Wh\/mi/);
    expect(plain(steadyAnswer(even, 'metric'))).toMatch(/^[\d.]+ km at a steady 90\.0 km\/h and −5 °C: \d+ Wh\/km/);
    expect(plain(standardAnswer(lab, 'metric'))).toMatch(
      /^\d+ km as tested \(SAE J1634, UDDS over and over\): .*; \d+ km on a window sticker\.$/,
    );
  });

  it('says why there is none', () => {
    expect(travelAnswer(none, 'metric')).toMatch(/^No range: the pack is empty at the start/);
  });

  it('goes on with what holds it back, what braking gives and what the seasons do', () => {
    expect(travelWords(town, 'metric')).toContain('It keeps up with the schedule.');
    expect(plain(travelWords(rush, 'metric'))).toMatch(/For \d+ s the car can not do what is asked, \d+ s of it more/);
    expect(plain(travelWords(far, 'metric'))).toMatch(/Over the year: \d+ km at −20 °C, \d+ km at 20 °C\.$/);
    expect(plain(travelWords(town, 'metric'))).toMatch(/Slowing down brings \d+(\.\d)? Wh back/);
    const so = (summary: Result['summary']): string =>
      plain(travelWords({ ...town, summary: { ...town.summary, ...summary } }, 'metric'));
    expect(so({ returned: 0.0002 })).toContain('What slowing down gives feeds lights, pumps and heating at once');
    expect(so({ distance_missed: 70_200 })).toContain('It keeps up as far as it gets, and 70.2 km are missing');
    const held: Result = { ...far, summary: { ...far.summary, ended_by: 'pack too weak' } };
    expect(travelAnswer(held, 'metric')).toContain('It ends before the pack is empty');
  });
});

describe('the report of trips', () => {
  it('is well-formed, answers first, has phases, cycles and the caution', async () => {
    const page = await writeReport(book);
    expect(faults(page)).toEqual([]);
    expect(page).not.toMatch(/NaN|undefined|Infinity|could not be drawn/);
    const answer = plain(page.slice(page.indexOf('id="answer"'), page.indexOf('id="workings"')));
    expect(answer).toContain('at −5 °C');
    expect(answer).toContain('No range: the pack is empty');
    expect(page).toContain('<caption>Phase by phase, energy out of the pack</caption>');
    expect(page).toContain('<caption>Cycle by cycle, energy out of the pack</caption>');
    // Twenty legs of one name are put together.
    expect(page).toMatch(/<th scope="row">[^<]*, 20 times<\/th>/);
    expect(page).toContain('A range is no promise');
    expect(plain(page)).toMatch(/stands at up to 3\d\d V/);
    expect(page.length).toBeLessThan(1_000_000);
  });

  it('has no caution on range where nothing drives far', async () => {
    expect(await writeReport(outcome({ problems: [], failedChecks: 0 }))).not.toContain('A range is no promise');
  });

  it('tells what several cells warn of once', async () => {
    const told = { ...town, warnings: ['a.csv: 2 gaps bridged'] };
    const blocks = ['one', 'two'].map((name, i) => cell('drive', name, 3 + i, '', { result: told }));
    const page = await writeReport(outcome({ blocks, problems: [], failedChecks: 0 }));
    const minds = page.slice(page.indexOf('class="minds"'), page.indexOf('id="workings"'));
    expect(minds.split('2 gaps bridged')).toHaveLength(2);
    expect(minds).toMatch(/>one<\/a>, <a href="#cell-2">two<\/a>: /);
  });

  it.each([40, 72])('fits into a terminal of %i characters', width => {
    const text = terminalSummary(book, { color: false, width });
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(width);
    expect(text.replace(/\s+/g, ' ')).toContain('from the wall.');
    expect(text).not.toContain('|D');
  });
});
