/** One result of each study, for tests of pictures and pages. */
import type { Result } from '../src/runs/result.ts';
import { base, dash, heavy, quick, resultOf } from './notebook/study-cells.ts';
import { fence } from './notebook/fake.ts';

const cars = base.replace('mass: 1150 kg\n', 'mass: 1150 kg ± 20 kg\n') + quick + heavy + dash;
const study = (kind: string, ...lines: string[]): Result =>
  resultOf(cars + fence(`yaml ${kind} study`, ['of: dash', ...lines].join('\n')), 'study');
const ratio = ['  - path: drive.ratio', '    from: 6', '    to: 12', '    steps: 7'];
const mass = ['  - path: mass', '    values: 1000 kg, 1100 kg, 1250 kg'];

export const compared = study('compare', 'cars: base, quick, heavy', 'prices: 1000, 1400, 6000', 'gross_mass: 1400 kg');
export const sweptOne = study('sweep', 'over:', ...ratio);
export const sweptTwo = study('sweep', 'over:', ...mass, ...ratio);
export const sweptCars = study(
  'sweep',
  'over:',
  '  - cars: base, quick',
  ...ratio,
  'lowest: dash.time, dash.time_quarter_mile',
);
export const sweptThree = study('sweep', 'over:', ...mass, ...ratio, '  - path: front_share', '    values: 45 %, 50 %');
export const spread = study('spread', 'samples: 64');
export const ranked = study('rank', 'output: dash.time', 'choices: drive.ratio', 'points: 32', 'inputs: 4');
export const found = study(
  'seek',
  'vary:',
  '  - path: pack.parallel',
  '    from: 1',
  '    to: 4',
  'find: smallest',
  'where:',
  '  - dash.time <= 8 s',
);
export const none = study('seek', 'vary:', ...ratio.slice(0, 3), 'find: smallest', 'where:', '  - dash.time <= 2 s');
