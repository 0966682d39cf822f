/** Quantities with a slip of the finger in them: each is read as it stands there or is an error, never another number. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readQuantity, UnitError } from '../../src/units.ts';
import { unitOf } from '../../src/units/unit.ts';

function read(text: string, unit: string): number | string {
  try {
    return readQuantity(text, unit).value;
  } catch (error) {
    if (error instanceof UnitError) return error.message;
    throw error;
  }
}

describe('a quantity is one number, its uncertainty and one unit', () => {
  it.each([
    ['1240 .5 kg', 'kg'],
    ['96 1/2 in', 'm'],
    ['1.4.8 m', 'm'],
    ['8.6.1', '1'],
    ['5 %%', '1'],
    ['5 % %', '1'],
    ['1(5) kg', 'kg'],
    ['1 (5) kg', 'kg'],
    ['5 (1)', '1'],
    ['1010 kg 3', 'kg'],
    ['1010 kg/3', 'kg'],
    ['1010 kg*2', 'kg'],
    ['1010 * kg', 'kg'],
    ['1010 kg/1', 'kg'],
    ['1010 2*kg', 'kg'],
    ['1010 1/2/kg', 'kg'],
    ['10 % kg', 'kg'],
    ['10 kg %', 'kg'],
    ['5 deg m', 'm'],
    ['5 rev m/s', 'm/s'],
    ['3000 rpm rev', 'rad/s'],
    ['150 Wh/2 km', 'J/m'],
    ['150 Wh/100', 'J'],
    ['5 1/100 1/s', '1/s'],
    ['1 000.5 kg', 'kg'],
    ['0.05....1 kg', 'kg'],
    ['5 - 10 kg', 'kg'],
    ['5 kg - 10 kg', 'kg'],
    ['5 – 10 kg', 'kg'],
    ['5e3.5 kg', 'kg'],
    ['5 kg ± 1 %%', 'kg'],
    ['5 kg ± 1.1.1', 'kg'],
    ['1e-400 kg', 'kg'],
    ['1e400 kg', 'kg'],
  ])('%j is no %s', (text, unit) => {
    expect(read(text, unit)).toBeTypeOf('string');
  });

  it.each([
    ['5 rad s⁻¹', 'rad/s', 5],
    ['5 rad s^-1', 'rad/s', 5],
    ['60 1/min', 'rad/s', 2 * Math.PI],
    ['18 kWh/100 km', 'J/m', 648],
    ['18 kWh / 100 km', 'J/m', 648],
    ['0.5 kWh/1000 km', 'J/m', 1.8],
    ['2 W/(N m)^2', 'W/(N m)^2', 2],
    ['900 J/kg K', 'J/(kg K)', 900],
    ['5 mm/m', '1', 0.005],
    ['2/3', '1', 2 / 3],
    ['0.3 %/K', '1/K', 0.003],
    ['0 kg', 'kg', 0],
    ['0e-400 kg', 'kg', 0],
    ['5 (kg)', 'kg', 5],
  ])('%j is %s as before', (text, unit, value) => {
    expect(read(text, unit)).toBeCloseTo(value, 12);
  });
});

/** Units that are put into the texts, with their SI value: NIST SP 811 (2008), Appendix B.8. */
const UNITS: { readonly [si: string]: readonly (readonly [written: string, factor: number])[] } = {
  kg: [
    ['kg', 1],
    ['lb', 0.45359237],
    ['g', 1e-3],
    ['t', 1e3],
  ],
  m: [
    ['m', 1],
    ['mm', 1e-3],
    ['in', 0.0254],
    ['km', 1e3],
    ['ft', 0.3048],
  ],
  'm/s': [
    ['km/h', 1 / 3.6],
    ['mph', 0.44704],
    ['m/s', 1],
  ],
  'm^2': [
    ['m²', 1],
    ['m^2', 1],
    ['cm^2', 1e-4],
  ],
  'J/m': [
    ['Wh/km', 3.6],
    ['kWh/100 km', 36],
  ],
  'N m': [
    ['N m', 1],
    ['Nm', 1],
    ['lbf ft', 1.3558179483314],
  ],
  'rad/s': [
    ['rpm', Math.PI / 30],
    ['1/min', Math.PI / 30],
    ['rad/s', 1],
  ],
  '1': [
    ['', 1],
    ['%', 0.01],
  ],
};

const NUMBER = String.raw`[+\-−]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;
/** Names side by side with their powers; numbers nowhere but in a power, as the 1 above a line, the 100 or 1000 below it. */
const NAME = String.raw`(?:[A-Za-zµμΩ°℃℉]+0?|%)(?:\^[+-]?(?:\d+(?:\.\d*)?|\.\d+)|[⁻¹²³⁴]+)?`;
const NAMES = String.raw`\(*${NAME}\)*(?:[\s·⋅*×()]*${NAME}\)*)*(?:\^[+-]?\d+|[⁻¹²³⁴]+)?`;
const UNIT = String.raw`(?:(?:1\s*|${NAMES}\s*)?(?:\/\s*\(*(?:1000?\s+)?${NAMES})*|${NAMES})`;
const SIDE = String.raw`\s*(${NUMBER})\s*((?:${UNIT})?)\s*`;
const ONE_SIDE = new RegExp(`^${SIDE}$`, 'u');
const RATIO = /^\s*([+\-−]?[\d.]+(?:[eE][+-]?\d+)?)\s*\/\s*(\d+(?:\.\d+)?)\s*$/u;

/**
 * Second opinion on a text: the number in front times the size of the unit behind it, where the text is one number and one
 * unit by a grammar that lives here; undefined where it is none. That a misspelled unit may be another unit is no slip that
 * anybody could see: its size is that of the unit reader.
 */
function asWritten(text: string, si: string): number | undefined {
  const [separator, second] = text.match(/±|\+\/?-|\.{2,}|…/gu) ?? [];
  if (second !== undefined) return undefined;
  if (separator === undefined) {
    const side = sideOf(text, si);
    return side && side.number * sizeOf(side.unit, si);
  }
  const at = text.indexOf(separator);
  const [left, right] = [text.slice(0, at), text.slice(at + separator.length)].map(side => sideOf(side, si));
  if (left === undefined || right === undefined) return undefined;
  const range = /\.|…/u.test(separator);
  const borrows = left.unit === '' && (range || si === '1' || right.unit !== '%');
  const low = left.number * sizeOf(borrows ? right.unit : left.unit, si);
  if (!range) return low;
  const high = right.number * sizeOf(right.unit === '' ? left.unit : right.unit, si);
  return low + (high - low) / 2;
}

function sideOf(text: string, si: string): { readonly number: number; readonly unit: string } | undefined {
  const number = (digits = ''): number => Number(digits.replace('−', '-'));
  const ratio = si === '1' ? RATIO.exec(text) : null;
  if (ratio !== null) return { number: number(ratio[1]) / number(ratio[2]), unit: '' };
  const [, digits, unit = ''] = ONE_SIDE.exec(text) ?? [];
  return digits === undefined ? undefined : { number: number(digits), unit };
}

function sizeOf(written: string, si: string): number {
  const known = UNITS[si]?.find(([name]) => name === written.trim());
  if (known !== undefined) return known[1];
  const turns = si === 'rad/s' && /^\s*(?:1\s*\/\s*min|min\s*\^\s*-1|min⁻¹)(?:ute)?s?\s*$/u.test(written);
  return unitOf(written).factor * (turns ? 2 * Math.PI : 1);
}

const number = fc.oneof(
  fc.integer({ min: 0, max: 9999 }).map(String),
  fc.tuple(fc.integer({ min: 0, max: 999 }), fc.integer({ min: 0, max: 99 })).map(([a, b]) => `${a}.${b}`),
  fc.integer({ min: 1, max: 99 }).map(a => `${a}e2`),
);

/** A quantity as people write it, right in every way. */
const good = fc.constantFrom(...Object.keys(UNITS)).chain(si => {
  const unit = fc.constantFrom(...(UNITS[si] ?? [])).map(([name]) => name);
  return fc
    .tuple(number, unit, fc.constantFrom('', '', ' ± ', ' +- ', ' .. ', '..'), number, fc.constantFrom(' ', ''), unit)
    .map(([a, u, separator, b, gap, v]) => ({
      si,
      text: separator === '' ? `${a}${gap}${u}` : `${a}${gap}${u}${separator}${b}${gap}${v}`,
    }));
});

const SIGNS = "0 1 2 3 4 5 6 7 8 9 . , / ( ) * ^ % + - e E _ = k m g h N W s ± ± − … ² ³ ° ' .5 (5) 3 .. 1/ /2"
  .split(' ')
  .concat([' ', ' 1/2 ', ' .5', ' 3', '"']);
const slip = fc.record({
  kind: fc.constantFrom('put in', 'put in', 'take out', 'change', 'double', 'swap'),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  sign: fc.constantFrom(...SIGNS),
  length: fc.integer({ min: 1, max: 4 }),
});

function slipped(text: string, { kind, at, sign, length }: { kind: string; at: number; sign: string; length: number }) {
  const k = Math.floor(at * (text.length + 1));
  const [before, after] = [text.slice(0, k), text.slice(k)];
  if (kind === 'put in') return before + sign + after;
  if (kind === 'take out') return before + after.slice(1);
  if (kind === 'change') return before + sign + after.slice(1);
  if (kind === 'double') return before + after.slice(0, length) + after;
  return before + after.slice(1, 2) + after.slice(0, 1) + after.slice(2);
}

it('a good quantity with up to three slips is read as it stands or is an error', () => {
  let [right, wrong] = [0, 0];
  fc.assert(
    fc.property(good, fc.array(slip, { maxLength: 3 }), ({ si, text }, slips) => {
      const changed = slips.reduce(slipped, text);
      const found = read(changed, si);
      if (typeof found === 'string') {
        wrong++;
        return;
      }
      right++;
      const expected = asWritten(changed, si);
      expect(expected, `${changed} as ${si} was read as ${found}`).toBeDefined();
      const off = Math.abs(found - (expected ?? Number.NaN));
      expect(off, `${changed} as ${si}: ${found}, and not ${expected}`).toBeLessThanOrEqual(1e-9 * Math.abs(found));
    }),
    { numRuns: 100_000 },
  );
  // Neither all refused nor all taken: the slips are worth something.
  expect(Math.min(right, wrong)).toBeGreaterThan(20_000);
});
