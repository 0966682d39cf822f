/** The library as its users get it: programs that import the built package by its name. Needs `npm run build`. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-doors-'));
mkdirSync(join(folder, 'node_modules'));
symlinkSync(root, join(folder, 'node_modules/axlewatt'));
afterAll(() => rmSync(folder, { recursive: true }));

let count = 0;

function program(text: string, ending = 'mjs'): string {
  const file = join(folder, `program${count++}.${ending}`);
  writeFileSync(file, text);
  const { status, stdout, stderr } = spawnSync(process.execPath, [file], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 60_000,
  });
  if (status !== 0) throw new Error(stderr);
  return stdout.trim();
}

const car = `const { car } = completeCar({
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit: shippedPart('unit', 'unit_100kw').values, ratio: 8.6 },
  pack: { cell: shippedPart('cell', 'cell_nmc_60ah').values, series: 96, parallel: 2 },
});
const { surroundings } = completeSurroundings({});
`;
const first = `import { completeCar, completeSurroundings, shippedPart, launch, drive, range, scheduleOf, scheduleNamed, tripThrough } from 'axlewatt';\n${car}`;

describe('a program', () => {
  it('sweeps the friction of a tyre', () => {
    const text = program(`${first}
const times = [0.6, 0.8, 1].map(peak => {
  const tyres = { front: car.tyres.front, rear: { ...car.tyres.rear, dry: { peak, slide: 0.85 * peak } } };
  return launch({ ...car, tyres }, { surroundings }).summary.time_to_100_km_h;
});
console.log(times[0] > times[1] && times[1] >= times[2]);`);
    expect(text).toBe('true');
  });

  it('drives a cycle that ships, and one of its own, from a car that came as JSON', () => {
    const text = program(`${first}
const again = JSON.parse(JSON.stringify(car));
const wltc = range(again, tripThrough('wltc', [scheduleNamed('wltc')]), { surroundings });
const own = scheduleOf({ title: 'round the block', time: [0, 10, 60, 70], speed: [0, 10, 10, 0] });
const round = drive(again, tripThrough('round', [own, { kind: 'stop', seconds: 60 }, own]), { surroundings });
console.log(wltc.summary.range > 1e5, round.summary.distance);`);
    // Two trapezoids of 10 m/s: 50 + 500 + 50 m each.
    expect(text.split(' ')[0]).toBe('true');
    expect(Number(text.split(' ')[1])).toBeCloseTo(1200, 6);
  });

  it('is told what is wrong with a schedule, by its row', () => {
    const complaint = (columns: string): string =>
      program(
        `${first} try { scheduleOf(${columns}); console.log('taken'); } catch (error) { console.log(error.message); }`,
      );
    expect(complaint('{ time: [0, 2, 1], speed: [0, 1, 0] }')).toBe('time[2]: is 1; expected more than the one before');
    expect(complaint('{ time: [0, 1], speed: [0, -1] }')).toBe('speed[1]: is -1 m/s; expected 0 to 150');
    expect(complaint('{ time: [0, 1], speed: [0, NaN] }')).toContain('speed[1]: is NaN m/s');
    expect(complaint('{ time: [0, 1], speed: [0, 1], slope: [] }')).toContain('slope: has 0 values; expected 1');
  });

  it('takes a torque table of its own', () => {
    const text = program(`${first.replace('values, ratio', 'values, ratio')}
const table = { tableSpeed: [0, 300, 1000], tableTorque: [300, 300, 60] };
const other = completeCar({ mass: 1240, tyres: { size: '165/80 R 13' }, drive: { axle: 'rear', unit: table, ratio: 8.6 },
  pack: { cell: shippedPart('cell', 'cell_nmc_60ah').values, series: 96, parallel: 2 } });
console.log(other.car.drives[0].unit.peakTorque, launch(other.car, { surroundings }).summary.time > 0);`);
    expect(text).toBe('300 true');
  });

  it('runs a notebook and writes its page', () => {
    const text = program(`import { runNotebook } from 'axlewatt/notebook';
import { writeReport } from 'axlewatt/report';
const outcome = runNotebook('# Sums\\n\\n\`\`\`calc sums\\nload = 3 * 75 kg\\n\`\`\`\\n\\n\`= load\`\\n', { file: 'sums.md' });
console.log((await writeReport(outcome)).includes('225 kg'));`);
    expect(text).toBe('true');
  });

  it('opens every door by require too, but that of the report: its picture library awaits while it loads', () => {
    const names = ['', '/studies', '/fit', '/solvers', '/notebook'];
    const text = program(
      `for (const name of ${JSON.stringify(names)}) console.log(Object.keys(require('axlewatt' + name)).length > 0);`,
      'cjs',
    );
    expect(text.split('\n')).toEqual(names.map(() => 'true'));
  });
});
