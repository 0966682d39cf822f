import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  evaluateFormula,
  FormulaError,
  formulaNames,
  type FormulaValue,
  parseAssignments,
} from '../../../src/notebook/formula/formula.ts';

const SCOPE: { readonly [path: string]: FormulaValue } = {
  'dash.time': { value: 8, unit: 's' },
  'dash.limiter': { value: 'grip', unit: '' },
  'dash.never': { value: NaN, unit: 's' },
  'estate.mass': { value: 1500, unit: 'kg' },
  'estate.unit.peak_torque': { value: 300, unit: 'N m' },
  'dash.temperature': { value: 293.15, unit: 'K' },
  share: { value: 0.5, unit: '1' },
  fits: { value: true, unit: '' },
};
const lookup = (path: string): FormulaValue | undefined => (Object.hasOwn(SCOPE, path) ? SCOPE[path] : undefined);
const run = (text: string): FormulaValue => evaluateFormula(text, lookup, Object.keys(SCOPE));

function failure(work: () => unknown): FormulaError {
  try {
    work();
  } catch (error) {
    if (error instanceof FormulaError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('evaluateFormula', () => {
  it.each([
    // plain arithmetic: precedence by hand
    ['1 + 2 * 3', 7, '1'],
    ['(1 + 2) * 3', 9, '1'],
    ['-2^2', -4, '1'],
    ['2^3^2', 512, '1'],
    ['2^-1', 0.5, '1'],
    ['7 - 4 - 2', 1, '1'],
    ['1/2/4', 0.125, '1'],
    ['2(3)', 6, '1'],
    ['55 %', 0.55, '1'],
    ['100 + 3 %', 100.03, '1'],
    ['10 % * 50', 5, '1'],
    ['pi', Math.PI, '1'],
    ['+5', 5, '1'],
    // units
    ['12 km / 3 minute', 12_000 / 180, 'm/s'],
    ['12 km / 3 min', 12_000 / 180, 'm/s'],
    ['90 km/h', 25, 'm/s'],
    ['2 * 15 kg', 30, 'kg'],
    ['1/2 kg', 0.5, 'kg'],
    ['-3 kW', -3000, 'W'],
    ['5 in', 0.127, 'm'],
    ['2 in * 3 in', 0.0762 * 0.0508, 'm^2'],
    ['18 kWh/100 km', 648, 'N'],
    ['60 mph', 26.8224, 'm/s'],
    ['100 PS', 73_549.875, 'W'],
    ['0.5 · 3 m²', 1.5, 'm^2'],
    ['2 N m + 3 Nm', 5, 'J'],
    ['3 mΩ', 0.003, 'ohm'],
    ['1010 kg * 0.8 g0', 1010 * 0.8 * 9.80665, 'N'],
    ['5 l / 2 kg', 0.0025, 'm^3/kg'],
    ['2 kg^2', 2, 'kg^2'],
    // an angle is a number: torque times speed is a power (300 N m at 3000 rpm = 94.25 kW)
    ['300 N m * 3000 rpm', 300 * 100 * Math.PI, 'W'],
    ['300 N m * 3000 rpm + 5 kW', 300 * 100 * Math.PI + 5000, 'W'],
    ['9000 rpm', 300 * Math.PI, 'rad/s'],
    ['25 m/s / 0.3 m', 25 / 0.3, '1/s'],
    // temperatures
    ['25 degC', 298.15, 'K'],
    ['-12 °C', 261.15, 'K'],
    ['25 degC - 20 degC', 5, 'K'],
    ['20 degC + 5 K', 298.15, 'K'],
    ['18 W/degC * 5 K', 90, 'W'],
    ['dash.temperature - 20 degC', 0, 'K'],
    // names
    ['dash.time', 8, 's'],
    ['dash.time * 2', 16, 's'],
    ['estate.mass * share', 750, 'kg'],
    ['estate.unit.peak_torque / 2', 150, 'J'],
    ['dash.limiter', 'grip', ''],
    ['fits', true, ''],
    // functions
    ['sqrt(16 m^2)', 4, 'm'],
    ['cbrt(27 m^3)', 3, 'm'],
    ['abs(-3 kg)', 3, 'kg'],
    ['min(3 kg, 200 g)', 0.2, 'kg'],
    ['max(1, 5, 2)', 5, '1'],
    ['hypot(3 m, 4 m)', 5, 'm'],
    ['sin(30 deg)', 0.5, '1'],
    ['cos(pi)', -1, '1'],
    ['atan2(1 m, 1 m)', Math.PI / 4, '1'],
    ['exp(0)', 1, '1'],
    ['log(exp(2))', 2, '1'],
    ['log(8, 2)', 3, '1'],
    ['log10(1000)', 3, '1'],
    ['round(2.5)', 3, '1'],
    ['round(-2.5)', -3, '1'],
    ['round(1.005, 2)', 1.01, '1'],
    ['floor(2.7) + ceil(2.2)', 5, '1'],
    ['sign(-3 kg)', -1, '1'],
    // comparisons
    ['dash.time < 9 s', true, ''],
    ['dash.time <= 8 s', true, ''],
    ['dash.time < 8 s', false, ''],
    ['0.1 + 0.2 == 0.3', true, ''],
    ['0.1 + 0.2 > 0.3', false, ''],
    ['1 kg == 1000 g', true, ''],
    ['1 kg != 1000 g', false, ''],
    ['3 >= 4', false, ''],
    ['3 ≤ 4', true, ''],
    ['0 s < dash.time < 10 s', true, ''],
    ['0 s < dash.time < 8 s < 9 s', false, ''],
    ['dash.limiter == "grip"', true, ''],
    ["dash.limiter != 'driver'", true, ''],
    ['fits == true', true, ''],
    ['not fits or 2 > 1 and 1 > 2', false, ''],
    ['not (1 > 2)', true, ''],
    ['fits ? 1 kg : 2 kg', 1, 'kg'],
    ['1 > 2 ? 1/0 : 7', 7, '1'],
  ] as const)('%s', (text, value, unit) => {
    const found = run(text);
    expect(found.unit).toBe(unit);
    if (typeof value === 'number') expect(found.value).toBeCloseTo(value, 9);
    else expect(found.value).toBe(value);
  });

  it('keeps the unit that the result is asked for in', () => {
    expect(run('12 km / 3 minute to km/h')).toEqual({ value: 12_000 / 180, unit: 'm/s', display: 'km/h' });
    expect(run('300 N m * 3000 rpm -> kW').display).toBe('kW');
    expect(run('9000 rpm / 2 → rpm').display).toBe('rpm');
    expect(run('5 in to mm').display).toBe('mm');
  });
});

describe('places of what is wrong', () => {
  it.each([
    // formula, message, marked, cure
    ['masss + 1', 'unknown name "masss"', 'masss', ''],
    ['1 + shar', 'unknown name "shar"', 'shar', 'share'],
    ['2 * dash.tmie', 'unknown name "dash.tmie"', 'dash.tmie', 'dash.time'],
    ['2 * (3 kgs)', 'unknown name "kgs"', 'kgs', 'kg'],
    ['sqr(4)', '"sqr" is not a function', 'sqr', 'sqrt'],
    ['share (2)', '"share" is not a function', 'share', ''],
    ['sqrt + 1', '"sqrt" is a function', 'sqrt', ''],
    ['1 + 5 kg', 'a mass cannot be added to a pure number', '1 + 5 kg', ''],
    ['2 * (3 s - 5 kg)', 'a mass cannot be taken from a time', '3 s - 5 kg', ''],
    ['1 + (dash.time < 5 kg)', 'a time cannot be compared with a mass', 'dash.time < 5 kg', ''],
    ['dash.limiter < "x"', 'a word is compared with == or !=', 'dash.limiter < "x"', ''],
    ['dash.limiter == 5', 'a word cannot be compared with a pure number', 'dash.limiter == 5', ''],
    ['dash.limiter * 2', 'a word is not a number', 'dash.limiter * 2', ''],
    ['fits + 1', 'a truth value is not a number', 'fits + 1', ''],
    ['3 and fits', 'a pure number is neither true nor false', '3 and fits', ''],
    ['3 ? 1 : 2', 'a pure number is neither true nor false', '3', ''],
    ['5 / (2 - 2)', 'division by zero', '5 / (2 - 2', ''],
    ['1 + sqrt(-1)', 'this has no real value', 'sqrt(-1', ''],
    ['9^9^9', 'the result is too large', '9^9^9', ''],
    ['2^(3 kg)', 'an exponent must be a pure number, not a mass', '2^(3 kg', ''],
    ['1 + sin(3 kg)', 'sin takes a pure number, not a mass; divide by a unit first', 'sin(3 kg', ''],
    ['min(3 kg, 5 s)', 'min cannot mix a mass and a time', 'min(3 kg, 5 s', ''],
    ['sqrt(1, 2)', 'sqrt takes 1 value', 'sqrt(1, 2', ''],
    ['log(1, 2, 3)', 'log takes 1 to 2 values', 'log(1, 2, 3', ''],
    ['round(1, 0.5)', 'round takes a whole number of places from 0 to 15', 'round(1, 0.5', ''],
    ['20 degC + 5 degC', 'two temperatures cannot be added; a difference is in K', '20 degC + 5 degC', ''],
    ['share degC', 'a temperature scale follows a plain number', 'degC', ''],
    ['2/3/4 m', 'it is not clear what is divided by what', '2', ''],
    ['3 ton', '"ton" is another unit in another country', 'ton', 'tonne'],
    ['dash.never + 1 s', '"dash.never" has no value', 'dash.never', ''],
    ['1,5 * 2', 'a comma is no decimal point', ',', '.'],
    ['5 % 3', 'a percent sign ends a number', '%', ''],
    ['a = 3', '"=" has no meaning here', '=', ''],
    ['1 &', '"&" has no meaning here', '&', ''],
    ['share in km', '"in" is the inch', 'in', 'to'],
    ['1 +', 'something is missing at the end', '+', ''],
    ['(1 + 2', 'something is missing at the end', '2', ''],
    ['1 + ) 2', '")" cannot stand here', ')', ''],
    ['3 4', '"4" cannot stand here', '4', ''],
    ['', 'nothing stands here', '', ''],
    ['   ', 'nothing stands here', '   ', ''],
    ['1e999', 'the number 1e999 is too large', '1e999', ''],
    ['1_000', 'digits are written without "_" between them', '1_', ''],
    ['5 kg to', 'no unit after "to"', 'to', ''],
    ['5 kg to kW', 'a mass cannot be given in kW', 'kW', ''],
    ['fits to kW', 'a truth value has no unit', 'kW', ''],
    ['5 kW to kwh', 'unknown unit "kwh"', 'kwh', 'kWh'],
    ['(5 kg to g) + 1', '"to" stands at the end, outside of brackets', 'to', ''],
    ['5 kg to g -> kg', 'more than one "to"', '->', ''],
    ['5 kg 6', 'an operator is missing before this number', '6', ''],
    ['5 kg 6^2 m', 'an operator is missing before this number', '6^2', ''],
  ])('%j', (text, message, part, cure) => {
    const { message: found, offset, length, nearest } = failure(() => run(text));
    expect([found, text.slice(offset, offset + length), nearest]).toEqual([message, part, cure]);
  });
});

const nested = (open: string, close: string, times: number): string => `${open.repeat(times)}1${close.repeat(times)}`;

describe('hostile formulas', () => {
  it.each([
    '1:200000000',
    'zeros(20000, 20000)',
    'ones(1e9)',
    'resize([1], [1e9])',
    'range(0, 2e8)',
    'f(x) = f(x + 1)',
    'f(x) = f(x + 1); f(1)',
    'config({number: "BigNumber"})',
    'import({pi: 3}, {override: true})',
    'createUnit("knot")',
    'evaluate("1")',
    'parse("1 + 1")',
    'compile("1")',
    'parser()',
    'simplify("x")',
    'derivative("x^2", "x")',
    'unit("5 kg")',
    'random()',
    'print("$x", 3)',
    'help(sqrt)',
    'typed("x", 1)',
    'cos.constructor("return process")()',
    'cos.constructor',
    'dash.constructor.constructor',
    '"".constructor',
    'constructor',
    'constructor(1)',
    '__proto__',
    'toString',
    'toString()',
    'hasOwnProperty("a")',
    'x = 3',
    'share = 2',
    'dash.time = 5',
    '1; 2',
    '[1, 2, 3]',
    '[1, 2][1]',
    '{a: 1}',
    'dash["time"]',
    '5!',
    '170!',
    "5'",
    '5 mod 3',
    'fits xor fits',
    '1 | 2',
    '1 & 2',
    '~1',
    '1 << 30',
    '2 .* 3',
    '2 ?? 3',
    'dash?.time',
    'x => 1',
    '`x`',
    '"a" + "b"',
    '"a\\u0041" == "aA"',
    'null',
    'undefined',
    'NaN',
    'Infinity',
    'i',
    '2i',
    '0x10',
    'end',
    '1 # comment',
    '99999999999^99999999999',
    '9^9^9^9^9',
    nested('(', ')', 33),
    nested('sqrt(', ')', 100),
    `${'-'.repeat(300)}1`,
    `1${'+1'.repeat(200)}`,
    `1${' ? 1 : 1'.repeat(60)}`,
    'a'.repeat(2000),
    '1'.repeat(1001),
    '\u0000',
    '1\u202e2',
    '5 kg\n6 kg',
  ])('%j is refused', text => {
    const { offset, length } = failure(() => run(text));
    expect(length).toBeGreaterThan(0);
    expect(offset).toBeGreaterThanOrEqual(0);
    expect(offset).toBeLessThanOrEqual(text.length);
  });

  it('reads what is deep but within bounds', () => {
    expect(run(nested('(', ')', 32)).value).toBe(1);
    expect(run(`1${'+1'.repeat(99)}`).value).toBe(100);
    expect(run(`${'-'.repeat(100)}1`).value).toBe(1);
  });

  it('never fails in another way than by a FormulaError inside the text', () => {
    const piece = fc.constantFrom(
      ...'1,2.5,kg,m,s,dash.time,share,fits,"x",(,),+,-,*,/,^,<,<=,==,!=,and,or,not,?,:,%,to,sqrt(,min(,degC,in,²'.split(
        ',',
      ),
      ',',
      ' ',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), pieces => {
        const text = pieces.join(' ');
        try {
          const { value } = run(text);
          expect(typeof value !== 'number' || Number.isFinite(value)).toBe(true);
        } catch (error) {
          if (!(error instanceof FormulaError)) throw error;
          expect(error.offset).toBeGreaterThanOrEqual(0);
          expect(error.offset + error.length).toBeLessThanOrEqual(Math.max(1, text.length));
        }
      }),
      { numRuns: 3000, seed: 2 },
    );
  });
});

describe('formulaNames', () => {
  it.each([
    ['dash.time / estate.mass', ['dash.time', 'estate.mass']],
    ['share + share * 2', ['share']],
    ['sqrt(area) * 5 kg', ['area']],
    ['min(a_1, 3 min)', ['a_1']],
    ['pi * 2 m to km', []],
    ['true and fits', ['fits']],
    ['dash.limiter == "grip"', ['dash.limiter']],
    ['estate.unit.peak_torque to Nm', ['estate.unit.peak_torque']],
    ['1 +* (', []],
    ['a $ b', []],
  ])('%s', (text, names) => {
    expect(formulaNames(text)).toEqual(names);
  });
});

describe('parseAssignments', () => {
  it('reads lines, comments and units', () => {
    const text = [
      '# the price of a ride',
      '',
      'distance = 120 km',
      '  used=distance * 160 Wh/km -> kWh   # energy',
      'cost = used * 0.3 / (1 kWh) to 1',
      'light = dash.limiter == "grip"\r',
    ].join('\n');
    expect(parseAssignments(text)).toEqual([
      { name: 'distance', formula: '120 km', line: 2, column: 11 },
      { name: 'used', formula: 'distance * 160 Wh/km', line: 3, column: 7, unit: 'kWh' },
      { name: 'cost', formula: 'used * 0.3 / (1 kWh)', line: 4, column: 7, unit: '1' },
      { name: 'light', formula: 'dash.limiter == "grip"', line: 5, column: 8 },
    ]);
  });

  it.each([
    ['m = 3', '"m" is a unit', 'm'],
    ['x = 1\n  h = 2', '"h" is a unit', 'h'],
    ['kW = 3', '"kW" is a unit', 'kW'],
    ['rpm = 3', '"rpm" is a unit', 'rpm'],
    ['ton = 3', '"ton" is a unit', 'ton'],
    ['min = 3', '"min" is a function', 'min'],
    ['pi = 3', '"pi" is a constant', 'pi'],
    ['in = 3', '"in" is a word of formulas', 'in'],
    ['true = 3', '"true" is a word of formulas', 'true'],
    ['x = 1\ny = 2\nx = 3', '"x" is already set in line 1 of this cell', 'x'],
    ['x = 1\n 2 + 3', 'this is not "name = formula"', '2 + 3'],
    ['x == 3', 'this is not "name = formula"', 'x == 3'],
    ['a.b = 3', 'this is not "name = formula"', 'a.b = 3'],
    ['_a = 3', 'this is not "name = formula"', '_a = 3'],
    ['x =', '"x" has no formula', 'x ='],
    ['x = # 3', '"x" has no formula', 'x ='],
    ['y = 1\nx = 3 kW -> kwh', 'unknown unit "kwh"', 'kwh'],
    ['y = 1\nx = -> kW', 'nothing stands before the unit', '-> kW'],
    ['y = 1\nx = 3 $ 4', '"$" has no meaning here', '$'],
  ])('%j', (text, message, part) => {
    const error = failure(() => parseAssignments(text));
    expect([error.message, text.slice(error.offset, error.offset + error.length)]).toEqual([message, part]);
  });

  it('leaves ordinary words free', () => {
    const words =
      'mass speed power energy force torque range time cost price gain load grade margin ratio tyre pack share area ' +
      'heat total loss need rest best used left front rear winter summer trip charge limit';
    for (const word of words.split(' ')) expect(() => parseAssignments(`${word} = 1`)).not.toThrow();
  });
});
