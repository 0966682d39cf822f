import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { breaches, sources } from '../build/imports.mjs';

const check = (path: string, text: string) => breaches([{ path, text }]);

describe('the one-way import rule', () => {
  it('holds in src', () => {
    const files = sources(fileURLToPath(new URL('../src', import.meta.url)));
    expect(files.length).toBeGreaterThan(10);
    expect(breaches(files)).toEqual([]);
  });

  it('lets a layer import what stands below it', () => {
    expect(
      check('runs/launch.ts', "import type { Car } from '../model/car.ts';\nexport * from '../solvers/system.ts';"),
    ).toEqual([]);
    expect(
      check('cli/run.ts', "const r = await import('../report/report.ts');\nimport { join } from 'node:path';"),
    ).toEqual([]);
    expect(
      check('model/parts/cells.ts', "import { x } from '../../units.ts';\nimport { y } from '../car.ts';"),
    ).toEqual([]);
  });

  it('lets every layer use the plain types of quantities, which import nothing', () => {
    expect(check('units/format.ts', "import type { Spread } from '../model/fields/input.ts';")).toEqual([]);
    expect(check('model/fields/input.ts', "import { x } from './car.ts';")).toHaveLength(1);
  });

  it.each([
    ['model/car.ts', "import { launch } from '../runs/launch.ts';", '"model" may not import "runs"'],
    ['solvers/fast.ts', "import {\n  type Car,\n} from '../model/car.ts';", '"solvers" may not import "model"'],
    ['runs/launch.ts', "export { run } from '../notebook/run.ts';", '"runs" may not import "notebook"'],
    ['notebook/run.ts', "const { html } = await import('../report/report.ts');", '"notebook" may not import "report"'],
    ['plots/trace.ts', "type B = import('../notebook/outcome.ts').Block;", '"plots" may not import "notebook"'],
    ['report/page/page.ts', "import '../../cli/axlewatt.ts';", '"report" may not import "cli"'],
    ['model/parts/cells.ts', "import { readFileSync } from 'node:fs';", 'runs in a browser'],
    ['units.ts', "import 'node:util';", 'runs in a browser'],
    ['units.ts', "import { x } from './model/car.ts';", '"units" may not import "model"'],
    ['model/car.ts', "import data from '../../package.json';", 'from outside src'],
    ['model/car.ts', "import { a } from './field.js';", 'end in .ts'],
    ['extras/a.ts', '', '"extras" is no layer'],
  ])('finds the breach planted in %s', (path, text, expected) => {
    expect(check(path, text)).toHaveLength(1);
    expect(check(path, text)[0]).toContain(expected);
  });

  it('tells the line, and takes comments for what they are', () => {
    const text = "/* import '../cli/a.ts';\n */\n// from '../cli/a.ts'\nimport { a } from '../cli/a.ts';";
    expect(check('model/car.ts', text)).toEqual(['src/model/car.ts:4: "model" may not import "cli" (../cli/a.ts)']);
  });
});
