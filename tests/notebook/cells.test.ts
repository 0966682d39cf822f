import { describe, expect, it } from 'vitest';
import { compile, type TopLevelSpec } from 'vega-lite';
import { expressionColumns } from '../../src/notebook/cells/plot-expression.ts';
import { cell, complaints, dash, fence, run } from './fake.ts';

const values = (content: string, more = dash) =>
  Object.fromEntries(cell(run(fence('calc s', content) + more), 's').values.map(({ name, ...rest }) => [name, rest]));

const check = (...lines: string[]) => run(dash + fence('yaml check', lines.map(line => `- ${line}`).join('\n')));
const checks = (...lines: string[]) => cell(check(...lines), 'check 1').checks;
const plot = (content: string) => run(dash + fence('yaml plot fast', content));
const chart = (content: string) => {
  const outcome = plot(content);
  expect(complaints(outcome)).toEqual([]);
  return cell(outcome, 'fast').chart;
};

const plotCure = (content: string) => plot(content).problems[0]?.nearest;
const views = (count: number) => `data: dash\nvconcat: [${'{mark: line},'.repeat(count)}]`;
describe('calc', () => {
  it('gives named values with SI units and a unit for people', () => {
    expect(
      values('one = 2 kg\nthree = 3 * one\nhalf = dash.top_speed / 2\nway = half * 1 s to km\nword = dash.limiter'),
    ).toEqual({
      one: { value: 2, unit: 'kg', display: 'kg' },
      three: { value: 6, unit: 'kg', display: 'kg' },
      half: { value: 25, unit: 'm/s', display: 'km/h' },
      way: { value: 25, unit: 'm', display: 'km' },
      word: { value: 'motor speed', unit: '', display: '' },
    });
  });

  it('locates what is wrong in a line', () => {
    const text = fence('calc s', 'one = 1 kg\n\nbad = one + 1 s');
    expect(run(text).problems).toMatchObject([{ line: 4, path: 's.bad', source: 'bad = one + 1 s' }]);
    expect(complaints(run(fence('calc s', 'one = 1\ntwo = one * nope')))).toEqual(['3:13: s.two: unknown name "nope"']);
    expect(run(fence('calc s', 'one = 1\nnot an assignment')).problems).toMatchObject([{ line: 3 }]);
    expect(complaints(run(fence('calc s', 'one = 2 * two\ntwo = 2')))[0]).toMatch(
      /^2:11: s.one: "two" is set further down/,
    );
    expect(run(fence('calc s', 'one = 1\none = 2')).problems).toMatchObject([{ line: 3 }]);
    expect(run(fence('calc s', 'm = 1')).problems).toMatchObject([{ line: 2, column: 1 }]);
  });

  it('offers the nearest name of another cell', () => {
    expect(run(fence('calc s', 'top = dash.top_sped') + dash).problems).toMatchObject([{ nearest: 'dash.top_speed' }]);
  });

  it('refuses brackets nested too deep', () => {
    const { problems } = run(fence('calc s', `one = ${'('.repeat(5000)}1${')'.repeat(5000)}`));
    expect(problems).toHaveLength(1);
    expect(problems[0]?.message).not.toContain('fault of axlewatt itself');
  });

  it.each([
    '1:200000000',
    'ones(1000000000)',
    'range(0, 1e8)',
    'import("fs")',
    'config({number: "BigNumber"})',
    'f(x) = f(x + 1)',
    'createUnit("kWh", "1 J")',
    'evaluate("1")',
    '[1, 2]',
    '{a: 1}',
    '"a".constructor',
    '(1).constructor("return process")()',
    '1; 2',
    '170!',
    '9^9^9^9^9',
  ])('refuses %s in a formula', formula => {
    const { problems } = run(fence('calc s', `one = ${formula}`));
    expect(problems).toHaveLength(1);
    expect(problems[0]?.message).not.toContain('fault of axlewatt itself');
  });
});

describe('check', () => {
  it('tells what was found, in the unit of the limit', () => {
    expect(
      checks('dash.time_to_100_km_h < 8 s', 'dash.top_speed >= 100 mph', '100 km/h < dash.top_speed'),
    ).toMatchObject([
      { text: 'dash.time_to_100_km_h < 8 s', line: 5, holds: false, found: '8.3 s < 8 s' },
      { text: 'dash.top_speed >= 100 mph', line: 6, holds: true, found: '111.8 mph >= 100 mph' },
      { text: '100 km/h < dash.top_speed', line: 7, holds: true, found: '100 km/h < 180 km/h' },
    ]);
  });

  it('compares several in a row, words, and what formulas reckon', () => {
    expect(checks('8 s < dash.time_to_100_km_h < 9 s')).toMatchObject([{ holds: true, found: '8 s < 8.3 s < 9 s' }]);
    expect(checks('dash.limiter == "motor speed"')).toMatchObject([
      { holds: true, found: 'motor speed == motor speed' },
    ]);
    expect(checks('dash.limiter != "motor speed"')).toMatchObject([{ holds: false }]);
    expect(checks('2 * dash.top_speed > dash.top_speed')).toMatchObject([
      { holds: true, found: '360 km/h > 180 km/h' },
    ]);
    expect(checks('dash.top_speed > 1 m/s and dash.time_to_100_km_h < 1 s')).toMatchObject([
      { holds: false, found: 'not true' },
    ]);
  });

  it('promises in the words of the author, else in those of its figures', () => {
    const promises = (...lines: string[]) => checks(...lines).map(({ promise }) => promise);
    expect(promises('Quicker than nine seconds: dash.time_to_100_km_h < 9 s')).toEqual(['Quicker than nine seconds']);
    expect(
      promises('dash.time_to_100_km_h <= 8 s', '100 km/h < dash.top_speed', '8 s < dash.time_to_100_km_h < 9 s'),
    ).toEqual(['To 100 km/h (dash) at most 8 s', '100 km/h below top speed (dash)', '8 s < to 100 km/h (dash) < 9 s']);
    expect(checks('Quicker: dash.time_to_100_km_h < 9 s')).toMatchObject([
      { text: 'dash.time_to_100_km_h < 9 s', holds: true, found: '8.3 s < 9 s' },
    ]);
    expect(complaints(check('Quicker: dash.time < 8 m'))[0]).toMatch(/^5:\d+: check 1: /);
    expect(complaints(check('a: b'))[0]).toMatch(/^5:6: check 1: compares nothing/);
    expect(complaints(check('{ a: 1 < 2, b: 1 < 2 }'))[0]).toMatch(/^5:3: check 1: is no comparison/);
    expect(complaints(check('a:'))[0]).toMatch(/^5:3: check 1: is no comparison/);
  });

  it('locates what cannot be compared', () => {
    expect(complaints(check('dash.top_speed < 8 s'))[0]).toMatch(/^5:\d+: check 1: /);
    expect(complaints(check('1 s < 2 s', 'dash.top_speed'))[0]).toMatch(
      /^6:3: check 1: compares nothing; expected two sides/,
    );
    expect(complaints(check('"dash.top_speed < nope.x"'))[0]).toMatch(
      /^5:21: check 1: unknown name "nope.x"; expected a figure of dash/,
    );
    expect(complaints(check('dash.time_to_160_km_h < 8 s'))[0]).toContain('has no value: the car never gets there');
  });

  it('wants a list', () => {
    for (const content of ['a: 1', 'x < 2', '', '{}', '- a\nb: 1']) {
      expect(run(fence('yaml check', content)).problems).toHaveLength(1);
    }
  });
});

describe('plot', () => {
  const line = 'data: dash\nmark: line\nencoding: {x: time, y: speed}';

  it('embeds the columns in use, in the units of the notebook, with types and titles', () => {
    expect(chart(line)).toEqual({
      title: 'fast',
      spec: {
        data: { name: 'dash' },
        mark: 'line',
        encoding: {
          x: { field: 'time', type: 'quantitative', title: 'time (s)' },
          y: { field: 'speed', type: 'quantitative', title: 'speed (km/h)' },
        },
        datasets: {
          dash: [
            { time: 0, speed: 0 },
            { time: 1, speed: 36 },
            { time: 2, speed: null },
          ],
        },
      },
    });
  });

  it('offers SI under the keys of the CSV, words as categories, and other series', () => {
    const found = chart('data: dash.time\nmark: bar\ntitle: Mine\nencoding: {x: speed_m_s, color: limiter}');
    expect(found).toMatchObject({
      title: 'Mine',
      spec: {
        encoding: { x: { title: 'speed (m/s)' }, color: { type: 'nominal' } },
        datasets: { 'dash.time': [{ speed_m_s: 0, limiter: 'grip' }, {}, {}] },
      },
    });
    expect(chart('data: dash.traction\nmark: point\nencoding: {x: speed}')).toMatchObject({
      spec: { datasets: { 'dash.traction': [{ speed: 18 }] } },
    });
  });

  it('is a specification that Vega-Lite compiles without loading', () => {
    const specs = [
      line,
      'data: dash\nlayer:\n  - {mark: {type: line, strokeWidth: 3}, encoding: {x: time, y: {field: speed, axis: {format: .1f}}}}\n  - {data: dash.traction, mark: rule, encoding: {y: speed}}',
      'data: dash\ntransform: [{calculate: "datum.speed * 2 + abs(-1)", as: twice}, {filter: "datum.time >= 1"}]\nmark: {type: area, opacity: 0.3}\nencoding: {x: time, y: twice}',
      'data: dash\nvconcat: [{mark: line, encoding: {x: time, y: speed}}, {mark: bar, encoding: {x: {aggregate: count}, y: limiter}}]',
      'data: dash\nmark: bar\nencoding: {x: {field: speed, bin: {maxbins: 5}}, y: {aggregate: count}}',
      'data: dash\ntransform: [{fold: [speed, time], as: [what, much]}]\nmark: line\nencoding: {x: time_s, y: {field: much, type: quantitative}, color: {field: what, type: nominal}}',
    ];
    for (const spec of specs) {
      const { spec: vega } = compile(chart(spec)?.spec as TopLevelSpec);
      expect(JSON.stringify(vega)).not.toContain('"url"');
    }
  });

  it.each([
    ['data: {url: "x.csv"}\nmark: line', 'data'],
    ['data: {values: []}\nmark: line', 'data'],
    ['data: {sequence: {start: 0, stop: 1e9}}\nmark: line', 'data'],
    ['data: https://example.org/x.csv\nmark: line', 'names something to load'],
    ['data: ../x.csv\nmark: line', 'not allowed'],
    ['data: dash\nmark: image', 'image'],
    ['data: dash\nmark: {type: image}', 'image'],
    ['data: dash\nmark: {type: point, href: "javascript:alert(1)"}', 'href'],
    ['data: dash\nmark: point\nencoding: {href: {field: time}}', 'href'],
    ['data: dash\nmark: point\nencoding: {url: {field: time}}', 'url'],
    ['data: dash\nmark: {type: point, color: "url(https://example.org)"}', 'names something to load'],
    ['data: dash\nmark: point\ntitle: "see https://example.org"', 'names something to load'],
    ['data: dash\nmark: {type: point, color: {expr: "1"}}', 'not a text'],
    ['data: dash\nmark: point\nparams: [{name: a, expr: "1"}]', 'params'],
    ['data: dash\nmark: point\nusermeta: {embedOptions: {loader: {}}}', 'usermeta'],
    ['data: dash\nmark: point\n$schema: https://vega.github.io/schema/vega-lite/v6.json', '$schema'],
    ['data: dash\nmark: point\nencoding: {x: {field: time, axis: {tickCount: 1e9}}}', 'number'],
    ['data: dash\nmark: point\nencoding: {x: {field: time, axis: {labelExpr: "datum.label"}}}', 'labelExpr'],
    ['data: dash\nmark: point\nencoding: {x: {field: time, bin: {step: 1e-9}}}', 'step'],
    ['data: dash\nmark: point\nencoding: {x: {field: time, scale: {nice: 1e9}}}', 'neither true nor false'],
    ['data: dash\nmark: point\ntransform: [{density: time, steps: 1e9}]', 'density'],
    ['data: dash\nmark: point\ntransform: [{impute: time, keyvals: {stop: 1e9}}]', 'impute'],
    ['data: dash\nmark: point\ntransform: [{calculate: "data(1)", as: x}]', '"data" is not allowed'],
    ['data: dash\nmark: point\nwidth: 1e9', 'not such a number'],
    ['data: dash\nmark: point\nencoding: {x: {field: time, format: "%{{}}"}}', 'not allowed'],
    ['data: nope\nmark: line\nencoding: {x: time}', 'no cell with a result'],
    ['data: dash.tme\nmark: line\nencoding: {x: time}', 'no series'],
    ['data: dash\nmark: line\nencoding: {x: speeed}', 'no column "speeed"'],
    ['data: dash\nmark: lin\nencoding: {x: time}', '"lin" is not allowed'],
    ['mark: line\nencoding: {x: time}', 'is missing'],
    ['- a', 'name: value'],
  ])('refuses %j', (content, reason) => {
    const { problems } = plot(content);
    expect(problems).toHaveLength(1);
    expect(Object.values(problems[0] ?? {}).join(' ')).toContain(reason);
    expect(problems[0]?.message).not.toContain('fault of axlewatt itself');
  });

  it('offers the nearest word', () => {
    expect(plotCure('data: dash\nmark: lin')).toBe('line');
    expect(plotCure('data: dash.tme\nmark: line')).toBe('time');
    expect(plotCure('data: dash\nencodng: {x: time}')).toBe('encoding');
    expect(plotCure('data: dash\nmark: line\nencoding: {x: speeed}')).toBe('speed');
  });

  it('bounds the number and the depth of views', () => {
    expect(plot(views(20)).problems).toEqual([]);
    expect(plot(views(40)).problems[0]?.message).toContain('more than 24 entries');
    const pairs = `data: dash\nvconcat: [${'{hconcat: [{mark: line}, {mark: line}]},'.repeat(12)}]`;
    expect(plot(pairs).problems[0]?.message).toContain('more than 24 views');
    const deep = `data: dash\nlayer: [{layer: [{layer: [{layer: [{layer: [{mark: line}]}]}]}]}]`;
    expect(plot(deep).problems[0]?.message).toContain('nests views deeper');
  });
});

describe('expressions of plots', () => {
  it('give the columns they use', () => {
    expect(expressionColumns('datum.a_1 * 2.5e-3 + max(datum.b, 1) > 3 ? \'x\' : "y"')).toEqual(['a_1', 'b']);
  });

  it.each([
    'datum["a"]',
    'datum.a.b',
    'datum.constructor("x")',
    'this',
    'event.x',
    '[1,2]',
    '{a: 1}',
    'a = 1',
    'data("x")',
    'sequence(1e9)',
    'x => x',
    'pad("a", 1e9)',
    '`a`',
    "'\\u0041'",
    '1;2',
    'datum',
  ])('refuse %s', source => {
    expect(() => expressionColumns(source)).toThrow('not allowed');
  });
});
