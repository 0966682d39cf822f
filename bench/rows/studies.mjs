// Studies by the built command line, on one thread and on all: rows a second once they run, and a whole spread in a report.
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { secondsOf } from '../seconds-of.mjs';

export const title = 'Studies: `axlewatt run` of a sweep, start and report taken off';
export const keys = [
  'sweep_launches_s',
  'sweep_launches_all_s',
  'sweep_long_s',
  'sweep_long_all_s',
  'sweep_wltc_s',
  'sweep_wltc_all_s',
  'sweep_scaling',
  'spread_1000_s',
];

const CAR = `\`\`\`yaml car coupe
mass: 1100 kg ± 20 kg
tyres: { size: 185/65 R 15 }
drive: { axle: rear, ratio: 9, unit: unit_100kw }
pack: pack_nmc_96s2p_60ah
\`\`\`
\`\`\`yaml launch dash
car: coupe
\`\`\`
\`\`\`yaml drive town
car: coupe
schedule: wltc
\`\`\`
`;

/** @param {string} of @param {string} output @param {number} rows */
export function sweep(of, output, rows) {
  const ratios = Math.ceil(rows / MOST_STEPS);
  const second = ratios > 1 ? `\n  - { path: drive.ratio, from: 7, to: 10, steps: ${ratios} }` : '';
  return `# Sweep\n${CAR}\`\`\`yaml sweep all\nof: ${of}\noutputs: ${output}\nover:\n  - { path: mass, from: 900 kg, to: 1300 kg, steps: ${rows / ratios} }${second}\n\`\`\`\n`;
}

/** Of one axis; more rows take two. */
const MOST_STEPS = 10_000;

const SPREAD = `# Spread\n${CAR}\`\`\`yaml range mixed
car: coupe
mix:
  - { schedule: udds, share: 55 % }
  - { schedule: hwfet, share: 45 % }
\`\`\`
\`\`\`yaml spread sure
of: dash, mixed
outputs: dash.time, mixed.range
samples: 1000
\`\`\`
`;

/** Rows of the short and of the long sweep. */
const SIZES = { dash: [500, 10_000], long: [10_000, 100_000], town: [50, 1500] };

/** @param {import('../bench.mjs').Setting} setting */
export function measure({ root, temp }) {
  const program = join(root, 'dist/cli/axlewatt.js');
  if (!existsSync(program)) throw new Error('dist/ is not built: npm run build');
  let run = 0;
  /** @param {string} text @param {number | null} workers */
  const seconds = (text, workers) => {
    const folder = join(temp, `study-${run++}`);
    mkdirSync(folder);
    writeFileSync(join(folder, 'study.md'), text);
    const rest = workers === null ? [] : ['--workers', String(workers)];
    return secondsOf([program, 'run', join(folder, 'study.md'), '--out', folder, '--samples', '0', '--quiet', ...rest]);
  };
  /** @param {'dash' | 'town'} of @param {string} output @param {number | null} workers @param {'dash' | 'long' | 'town'} size */
  const rate = (of, output, workers, size = of) => {
    const [few, many] = SIZES[size];
    return (many - few) / (seconds(sweep(of, output, many), workers) - seconds(sweep(of, output, few), workers));
  };
  const launches = [rate('dash', 'dash.time', 1), rate('dash', 'dash.time', null)];
  const long = [rate('dash', 'dash.time', 1, 'long'), rate('dash', 'dash.time', null, 'long')];
  const drives = [rate('town', 'town.consumption', 1), rate('town', 'town.consumption', null)];
  const spread = seconds(SPREAD, null);
  const line = (/** @type {string} */ name, /** @type {number[]} */ [one, all]) => [
    name,
    one.toFixed(0),
    all.toFixed(0),
    (all / one).toFixed(2),
  ];
  return {
    values: {
      sweep_launches_s: launches[0],
      sweep_launches_all_s: launches[1],
      sweep_long_s: long[0],
      sweep_long_all_s: long[1],
      sweep_wltc_s: drives[0],
      sweep_wltc_all_s: drives[1],
      sweep_scaling: drives[1] / drives[0],
      spread_1000_s: spread,
    },
    head: ['rows a second', 'one thread', `${availableParallelism()} threads`, 'scaling'],
    lines: [
      line('launches to 100 km/h', launches),
      line('the same, 100,000 rows', long),
      line('WLTC', drives),
      ['1,000 samples of 0-100 and mixed range, whole report, s', '', spread.toFixed(1), ''],
    ],
  };
}
