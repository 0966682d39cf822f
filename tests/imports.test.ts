import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { breaches, circles, engineFunctions, sources } from '../build/imports.mjs';

const check = (path: string, text: string) => breaches([{ path, text }]);

describe('the one-way import rule', () => {
  it('holds in src', () => {
    const files = sources(fileURLToPath(new URL('../src', import.meta.url)));
    expect(files.length).toBeGreaterThan(10);
    expect(breaches(files)).toEqual([]);
    expect(circles(files)).toEqual([]);
    expect(engineFunctions(files)).toEqual([]);
  });

  it('finds elementary functions of the engine where page and command must give the same bits', () => {
    const at = (path: string) =>
      engineFunctions([{ path, text: '// Math.exp\nconst a = Math.sqrt(2);\nconst b = Math.tanh(a);' }]);
    expect(at('model/car.ts')).toEqual([
      'src/model/car.ts:3: Math.tanh differs from engine to engine: take that of elementary.ts',
    ]);
    expect(at('plots/trace.ts')).toEqual([]);
  });

  it('finds files that import one another, types too, and names all of them once', () => {
    const found = circles([
      { path: 'fit/a.ts', text: "import { b } from './b.ts';" },
      { path: 'fit/b.ts', text: "import { c } from './deep/c.ts';" },
      { path: 'fit/deep/c.ts', text: "import type { A } from '../a.ts';" },
      { path: 'fit/d.ts', text: "import { a } from './a.ts';\n// import './d.ts';" },
    ]);
    expect(found).toEqual(['src/fit/a.ts:1: circle of imports: fit/a.ts, fit/b.ts, fit/deep/c.ts']);
  });

  it('lets a layer import what stands below it', () => {
    expect(
      check('runs/launch.ts', "import type { Car } from '../model/car.ts';\nexport * from '../solvers/system.ts';"),
    ).toEqual([]);
    expect(
      check('cli/run.ts', "const r = await import('../report/report.ts');\nimport { join } from 'node:path';"),
    ).toEqual([]);
    expect(check('model/pack/cells.ts', "import { x } from '../../units.ts';\nimport { y } from '../car.ts';")).toEqual(
      [],
    );
  });

  it('lets every layer use the plain types of quantities and the readers of columns, which import nothing', () => {
    expect(check('solvers/track.ts', "import { nth } from '../columns.ts';")).toEqual([]);
    expect(check('model/tables/grid.ts', "import { nth } from '../../columns.ts';")).toEqual([]);
    expect(check('columns.ts', "import { x } from './units.ts';")).toHaveLength(1);
    expect(check('columns.ts', "import 'node:util';")).toHaveLength(1);
    expect(check('units/number-text.ts', "import type { Spread } from '../model/fields/input.ts';")).toEqual([]);
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

  it.each([
    ['model/tyre/slip.ts', '../forward/state.ts', '"tyre" may not import "forward"'],
    ['model/forward/load.ts', '../backward/demand.ts', '"forward" may not import "backward"'],
    ['model/forward/load.ts', '../complete.ts', '"forward" may not import "complete"'],
    ['model/tables/grid.ts', '../pack/state.ts', '"tables" may not import "pack"'],
    ['model/fields/filler.ts', '../spec.ts', '"fields" may not import "spec"'],
    ['model/car.ts', './drive/losses.ts', '"car" may not import "drive"'],
    ['model/pack/fields.ts', './heat.ts', '"pack/fields" may not import "pack"'],
    ['runs/result.ts', './sound.ts', '"result" may not import "sound"'],
    ['runs/launch/launch.ts', '../schedule/trip.ts', '"launch" may not import "schedule"'],
    ['runs/schedule/follower.ts', '../trip/range.ts', '"schedule" may not import "trip"'],
    ['runs/trip/range.ts', '../standard/trips.ts', '"trip" may not import "standard"'],
    ['runs/sheet/balance.ts', '../launch/run.ts', '"sheet/balance" may not import "launch/run"'],
    ['runs/kind.ts', './kinds.ts', '"kind" may not import "kinds"'],
    ['runs/charge/charge.ts', '../answer/ask.ts', '"charge" may not import "answer"'],
    ['studies/question/evaluate.ts', '../search/grid.ts', '"question" may not import "search"'],
    ['studies/statistics/estimate.ts', '../search/trial.ts', '"statistics" may not import "search"'],
  ])('finds the breach between two rooms planted in %s', (path, specifier, expected) => {
    expect(check(path, `import type { X } from '${specifier}';`)).toEqual([expect.stringContaining(expected)]);
  });

  it('lets a room import what it stands on', () => {
    expect(check('model/forward/load.ts', "import { x } from '../tyre/slip.ts';\nimport './state.ts';")).toEqual([]);
    expect(check('model/tyre/complete.ts', "import { x } from './fields.ts';")).toEqual([]);
    expect(check('studies/search/line.ts', "import { x } from '../question/evaluate.ts';")).toEqual([]);
  });

  it('wants to know where a new room stands', () => {
    expect(check('model/aura/glow.ts', '')).toEqual([expect.stringContaining('has no room in "model"')]);
  });

  it('tells the line, and takes comments for what they are', () => {
    const text = "/* import '../cli/a.ts';\n */\n// from '../cli/a.ts'\nimport { a } from '../cli/a.ts';";
    expect(check('model/car.ts', text)).toEqual(['src/model/car.ts:4: "model" may not import "cli" (../cli/a.ts)']);
  });
});
