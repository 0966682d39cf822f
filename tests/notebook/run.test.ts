import { describe, expect, it } from 'vitest';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, dash, dummyResult, fence, KINDS, run } from './fake.ts';

describe('runNotebook', () => {
  it('gives the blocks in the order written, whatever the order of running', () => {
    const outcome = run(`# T\n\n${fence('calc sums', 'slow = dash.time_to_100_km_h > 8 s')}\ntext\n\n${dash}`);
    expect(outcome.problems).toEqual([]);
    expect(outcome.title).toBe('T');
    expect(outcome.blocks.map(block => (block.kind === 'cell' ? block.name : block.text))).toEqual([
      'T',
      'sums',
      'text',
      'dash',
    ]);
    expect(cell(outcome, 'sums').values).toEqual([{ name: 'slow', value: true, unit: '', display: '' }]);
    expect(cell(outcome, 'dash')).toMatchObject({ result: dummyResult, line: 9, problem: null });
  });

  it('takes the title from the front matter, the first heading, or the file', () => {
    expect(run('---\ntitle: Mine\n---\n# Other\n').title).toBe('Mine');
    expect(run('text\n\n## The `x` one\n').title).toBe('The x one');
    expect(runNotebook('text', { file: 'some/folder/dash.of.md', kinds: KINDS }).title).toBe('dash.of');
  });

  it('lists the inputs of the runs, each once, with the line', () => {
    const { inputs } = run(dash + fence('yaml dummy other', 'mass: 5 kg\nafter: dash') + fence('calc s', 'one = 1 kg'));
    expect(inputs.map(({ path, value }) => [path, value])).toEqual([
      ['dash.mass', 1010],
      ['other.mass', 5],
      ['other.after', 'dash'],
    ]);
    expect(inputs[0]?.origin).toEqual({ kind: 'given', file: 'a.md', line: 2, column: 7 });
  });

  it('says the line and column of a wrong value, and still runs the other cells', () => {
    const outcome = run(`${fence('yaml dummy bad', 'mass: 10 s')}${dash}`);
    expect(outcome.problems).toMatchObject([{ file: 'a.md', line: 2, path: 'bad.mass', source: 'mass: 10 s' }]);
    expect(cell(outcome, 'bad')).toMatchObject({ result: null, values: [] });
    expect(cell(outcome, 'bad').problem).toEqual(outcome.problems[0]);
    expect(cell(outcome, 'dash').result).not.toBeNull();
  });

  it('fails what leans on a failed cell with one short problem each', () => {
    const outcome = run(
      [
        fence('yaml dummy bad', 'mass: 10 s'),
        fence('calc sums', 'one = 1\ndouble = 2 * bad.top_speed'),
        fence('yaml check', '- double > 3 m/s'),
        fence('yaml dummy next', 'mass: 1 kg\nafter: bad'),
      ].join(''),
    );
    expect(complaints(outcome).slice(1)).toEqual([
      '6:14: sums: needs bad, which failed (line 1)',
      '9:3: check 1: needs sums, which failed (line 4)',
      '13:8: next: needs bad, which failed (line 1)',
    ]);
  });

  it('names a circle in each of its cells, and fails what hangs on it', () => {
    const outcome = run(
      [
        fence('calc a', 'x = b.y'),
        fence('calc b', 'y = z'),
        fence('calc c', 'z = a.x'),
        fence('calc d', 'w = a.x'),
        dash,
      ].join(''),
    );
    expect(complaints(outcome)).toEqual([
      '2:5: a: cells need each other in a circle: a -> b -> c -> a',
      '5:5: b: cells need each other in a circle: b -> c -> a -> b',
      '8:5: c: cells need each other in a circle: c -> a -> b -> c',
      '11:5: d: needs a, which failed (line 1)',
    ]);
    expect(cell(outcome, 'dash').result).not.toBeNull();
  });

  it('shortens a long circle', () => {
    const ring = Array.from({ length: 200 }, (_, k) =>
      fence(`calc c${k}`, `v${k} = c${(k + 1) % 200}.v${(k + 1) % 200}`),
    );
    const found = complaints(run(ring.join('')));
    expect(found).toHaveLength(200);
    expect(found[0]).toBe(
      '2:6: c0: cells need each other in a circle: c0 -> c1 -> c2 -> c3 -> c4 -> c5 -> c6 -> ... -> c0',
    );
  });

  it('takes a cell that needs itself for a circle of one', () => {
    expect(complaints(run(fence('yaml dummy a', 'mass: 1 kg\nafter: a')))).toEqual([
      '3:8: a: cells need each other in a circle: a -> a',
    ]);
  });

  it('lets a name that is used twice mean the first cell', () => {
    const outcome = run(dash + fence('yaml dummy dash', 'mass: 3 kg') + fence('calc s', 'top = dash.top_speed'));
    expect(outcome.problems).toMatchObject([{ line: 4 }]);
    expect(cell(outcome, 's').problem).toBeNull();
  });

  it('lets a name whose first cell is no cell mean the second', () => {
    const outcome = run(`${fence('yaml dumy dash', 'mass: 3 kg')}${dash}${fence('calc s', 'top = dash.top_speed')}`);
    expect(outcome.problems).toMatchObject([{ line: 1, nearest: 'dummy' }]);
    expect(cell(outcome, 's').problem).toBeNull();
  });

  it('counts checks that do not hold', () => {
    const text = `${dash}${fence('yaml check', '- dash.time_to_100_km_h < 8 s\n- dash.time_to_100_km_h < 9 s')}`;
    expect(run(text)).toMatchObject({ failedChecks: 1, problems: [] });
  });

  it('tells a fault of axlewatt as such, in its place, and runs the rest', () => {
    const outcome = run(`${fence('yaml dummy odd', 'mass: 13 kg')}${dash}`);
    expect(complaints(outcome)).toEqual([
      '1:1: odd: a fault of axlewatt itself in this dummy cell: TypeError: a fault; expected nothing; please report it',
    ]);
    expect(cell(outcome, 'dash').result).not.toBeNull();
  });

  it('sorts problems by line, those of the front matter and of prose among them', () => {
    const text = `---\nunits: x\n---\n\`= nothing.here\`\n\n${fence('yaml dummy bad', 'mass: 10 s')}\n\`= y\`\n`;
    expect(run(text).problems.map(({ line }) => line)).toEqual([2, 4, 7, 10]);
  });

  it('gives the same outcome again', () => {
    const text = `${dash}${fence('calc s', 'top = dash.top_speed')}`;
    expect(run(text)).toEqual(run(text));
  });

  it('is not led astray by names that objects have of themselves', () => {
    const outcome = run(
      [
        fence('yaml dummy constructor', 'mass: 1 kg'),
        fence('calc toString', 'hasOwnProperty = constructor.top_speed\nprototype = constructor.constructor'),
        '`= valueOf` and `= constructor.__proto__`\n',
      ].join(''),
    );
    expect(outcome.problems).toHaveLength(3);
    expect(complaints(outcome)[0]).toContain(
      '6:13: toString.prototype: constructor, a dummy cell, has no "constructor"; expected one of time_to_100_km_h,',
    );
  });
});
