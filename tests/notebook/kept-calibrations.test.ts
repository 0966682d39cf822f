/** A calibration is not worked out again while nothing that it hangs on has changed. */
import { describe, expect, it } from 'vitest';
import type { CellBlock } from '../../src/notebook/document/outcome.ts';
import type { Memory } from '../../src/notebook/memory.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { launchCar, loggedLaunch, normals } from '../fit/launch-logs.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const normal = normals(4);
const DRAG = { rate: 10, noise: 0.06, over: 0.1, to: 90 };
const LOG = loggedLaunch(launchCar(), { power: 0.92 }, DRAG, normal);
const OTHER = loggedLaunch(launchCar(), { power: 0.92 }, DRAG, normal);

const text = (mass = '1155 kg', fit = '[power]', before = ''): string =>
  before +
  fence(
    'car coupe',
    `mass: ${mass}`,
    'tyres: { radius: 290 mm }',
    'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 160 N m, peak_power: 60 kW, max_speed: 1200 rad/s } }',
    'pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }',
  ) +
  fence('calibrate strip', 'car: coupe', 'launch: [{ log: a.csv }]', `fit: ${fit}`) +
  fence('car known', 'from: strip');

describe('a calibration', () => {
  const kept = new Map<string, string>();
  const worked: string[] = [];
  const memory: Memory = {
    recall: question => kept.get(question) ?? null,
    keep: (question, answer) => {
      worked.push(question);
      kept.set(question, answer);
    },
  };
  const run = (of: string, log: string): { readonly cell: CellBlock | undefined; readonly again: boolean } => {
    worked.length = 0;
    const { blocks } = runNotebook(of, { file: 'a.md', readFile: () => log, memory });
    const cell = blocks.find((block): block is CellBlock => block.kind === 'cell' && block.name === 'strip');
    return { cell, again: worked.length > 0 };
  };

  it('is kept with all that it found, the car that it leaves among it', () => {
    const first = run(text(), LOG);
    expect(first.again).toBe(true);
    const second = run(text(), LOG);
    expect(second.again).toBe(false);
    expect(second.cell?.result).toEqual(first.cell?.result);
  });

  it('stays kept where it only stands elsewhere in the notebook', () => {
    expect(run(text('1155 kg', '[power]', '# Title\n\n'), LOG).again).toBe(false);
  });

  it.each<[string, string, string]>([
    ['another log', text(), OTHER],
    ['another mass', text('1156 kg'), LOG],
    ['the same mass less surely known', text('1155 kg ± 20 kg'), LOG],
    ['another question', text('1155 kg', '[power, torque]'), LOG],
  ])('is worked out anew for %s', (_, of, log) => {
    expect(run(of, log).again).toBe(true);
  });
});
