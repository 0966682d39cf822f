import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  describeUnit,
  dimensionName,
  formatNumber,
  formatQuantity,
  fromDisplay,
  readQuantity,
  sameDimension,
  toDisplay,
  UnitError,
  unitLabel,
} from '../src/units.ts';

function wrong(text: string, unit: string): UnitError {
  try {
    readQuantity(text, unit);
  } catch (error) {
    if (error instanceof UnitError) return error;
    throw error;
  }
  throw new Error(`"${text}" was read as ${unit}`);
}

const marked = (text: string, { offset, length }: UnitError): string => text.slice(offset, offset + length);

describe('conversion factors', () => {
  // NIST Special Publication 811 (2008 edition), Appendix B.8: factors to seven digits, those marked exact in full.
  it.each([
    ['1 lb', 'kg', 4.535924e-1],
    ['1 tonne', 'kg', 1e3],
    ['1 oz', 'kg', 2.834952e-2],
    ['1 in', 'm', 2.54e-2],
    ['1 ft', 'm', 3.048e-1],
    ['1 mile', 'm', 1.609344e3],
    ['1 mi', 'm', 1.609344e3],
    ['1 ft^2', 'm^2', 9.290304e-2],
    ['1 l', 'm^3', 1e-3],
    ['1 km/h', 'm/s', 2.777778e-1],
    ['1 kph', 'm/s', 2.777778e-1],
    ['1 mph', 'm/s', 4.4704e-1],
    ['1 ft/s', 'm/s', 3.048e-1],
    ['1 gn', 'm/s^2', 9.80665],
    ['1 g0', 'm/s^2', 9.80665],
    ['1 lbf', 'N', 4.448222],
    ['1 kgf', 'N', 9.80665],
    ['1 lbf ft', 'N m', 1.355818],
    ['1 lbft', 'N m', 1.355818],
    ['1 lbf in', 'N m', 1.129848e-1],
    ['1 hp', 'W', 7.456999e2],
    ['1 bhp', 'W', 7.456999e2],
    ['1 PS', 'W', 7.354988e2],
    ['1 metrichp', 'W', 7.354988e2],
    ['1 kWh', 'J', 3.6e6],
    ['1 Wh', 'J', 3.6e3],
    ['1 BTU', 'J', 1.055056e3],
    ['1 psi', 'Pa', 6.894757e3],
    ['1 bar', 'Pa', 1e5],
    ['1 Ah', 'C', 3.6e3],
    ['1 mAh', 'C', 3.6],
    ['1 rpm', 'rad/s', 1.047198e-1],
    ['1 rev/s', 'rad/s', 6.283185],
    ['1 deg/s', 'rad/s', 1.745329e-2],
    ['1 lb ft^2', 'kg m^2', 4.214011e-2],
    ['1 lb/ft^3', 'kg/m^3', 1.601846e1],
    ['1 min', 's', 60],
    ['1 h', 's', 3600],
  ])('%s in %s', (text, unit, factor) => {
    expect(Math.abs(readQuantity(text, unit).value / factor - 1)).toBeLessThan(5e-7);
  });

  // Exact by definition: 0.45359237 kg, 9.80665 m/s2, 0.3048 m (NIST SP 811, B.6), and 550 ft lbf/s and 75 m kgf/s.
  it('tells the two horsepowers apart to the last digit', () => {
    expect(readQuantity('1 hp', 'W').value).toBeCloseTo(550 * 0.3048 * 0.45359237 * 9.80665, 10);
    expect(readQuantity('1 PS', 'W').value).toBeCloseTo(735.49875, 10);
  });

  // SI Brochure, 9th ed. (2019), table 7 for the prefixes, 2.3.4 for ohm and coulomb.
  it.each([
    ['2 mohm', 'ohm', 0.002],
    ['2 mΩ', 'ohm', 0.002],
    ['350 µΩ', 'ohm', 350e-6],
    ['1.2 kV', 'V', 1200],
    ['250 g', 'kg', 0.25],
    ['0.3 MJ', 'J', 3e5],
    ['2 kN m', 'N m', 2000],
    ['2 kNm', 'N m', 2000],
  ])('%s in %s with prefixes', (text, unit, value) => {
    expect(readQuantity(text, unit).value).toBeCloseTo(value, 12);
  });

  it('reads the units of energy per distance', () => {
    expect(readQuantity('150 Wh/km', 'J/m').value).toBeCloseTo(540, 9);
    expect(readQuantity('15 kWh/100 km', 'J/m').value).toBeCloseTo(540, 9);
    expect(readQuantity('15 kWh/100km', 'J/m').value).toBeCloseTo(540, 9);
    expect(readQuantity('250 Wh/mi', 'J/m').value).toBeCloseTo(900_000 / 1609.344, 9);
  });
});

describe('readQuantity', () => {
  it.each([
    ['1010 kg', 'kg', 1010],
    ['  1010kg ', 'kg', 1010],
    ['+8 s', 's', 8],
    ['.5 m', 'm', 0.5],
    ['5. m', 'm', 5],
    ['1e3 W', 'W', 1000],
    ['1.5E-3 ohm', 'ohm', 0.0015],
    ['−2 m/s', 'm/s', -2],
    ['55 %', '1', 0.55],
    ['55%', '1', 0.55],
    ['55 percent', '1', 0.55],
    ['0.55', '1', 0.55],
    ['96', '1', 96],
    ['41/11', '1', 41 / 11],
    ['41 / 11', '1', 41 / 11],
    ['0.65 m^2', 'm^2', 0.65],
    ['0.65 m²', 'm^2', 0.65],
    ['250 N m', 'N m', 250],
    ['250 N·m', 'N m', 250],
    ['250 N*m', 'N m', 250],
    ['250 Nm', 'N m', 250],
    ['3 m/s/s', 'm/s^2', 3],
    ['3 m s⁻²', 'm/s^2', 3],
    ['900 J/kg K', 'J/(kg K)', 900],
    ['0.5 W/(N m)^2', 'W/(N m)^2', 0.5],
    ['0.01 s/m', 's/m', 0.01],
    ['2e-5 s^2/m^2', 's^2/m^2', 2e-5],
    ['0.01 W s/rad', 'W s/rad', 0.01],
    ['0.01 W s', 'W/(rad/s)', 0.01],
    ['0.01 N m', 'W s/rad', 0.01],
  ])('%j in %s', (text, unit, value) => {
    expect(readQuantity(text, unit)).toEqual({ value });
  });

  // NIST SP 811 (2008), B.8; 32 °F and 212 °F are the ice and the steam point.
  it.each([
    ['20 degC', 293.15],
    ['20 °C', 293.15],
    ['20 ℃', 293.15],
    ['-12 degC', 261.15],
    ['-40 °F', 233.15],
    ['32 degF', 273.15],
    ['212 degF', 373.15],
    ['293.15 K', 293.15],
  ])('%s is %f K', (text, kelvin) => {
    expect(readQuantity(text, 'K').value).toBeCloseTo(kelvin, 10);
  });

  it('takes a degree as a difference inside a product', () => {
    expect(readQuantity('18 W/degC', 'W/K').value).toBe(18);
    expect(readQuantity('18 W/°F', 'W/K').value).toBeCloseTo(32.4, 12);
  });

  it.each(['12000 rpm', '12000 1/min', '12000 min^-1', '12000 min⁻¹', '200 rev/s', '12000 rev/min'])(
    'counts turns in %s',
    text => {
      expect(readQuantity(text, 'rad/s').value).toBeCloseTo(400 * Math.PI, 9);
    },
  );

  it.each(['1010 kg ± 15 kg', '1010 ± 15 kg', '1010 kg ± 15', '1010 kg +- 15 kg', '1010 kg+/-15 kg', '1.01 t ± 15 kg'])(
    'reads a standard uncertainty in %s',
    text => {
      expect(readQuantity(text, 'kg')).toEqual({ value: 1010, spread: { kind: 'normal', standard: 15 } });
    },
  );

  it('reads an uncertainty in percent of the value', () => {
    expect(readQuantity('-200 kW ± 5 %', 'W').spread).toEqual({ kind: 'normal', standard: 10_000 });
    const share = readQuantity('55 % ± 2 %', '1');
    expect(share.value).toBeCloseTo(0.55, 15);
    expect(share.spread).toEqual({ kind: 'normal', standard: 0.02 });
  });

  it('takes the spread of a temperature as a difference', () => {
    expect(readQuantity('20 degC ± 2 K', 'K')).toEqual({ value: 293.15, spread: { kind: 'normal', standard: 2 } });
    expect(readQuantity('20 ± 2 °C', 'K')).toEqual({ value: 293.15, spread: { kind: 'normal', standard: 2 } });
    expect(readQuantity('20 degC ± 9 °F', 'K').spread).toEqual({ kind: 'normal', standard: 5 });
    const range = readQuantity('-5 .. 15 °C', 'K');
    expect(range).toEqual({ value: 278.15, spread: { kind: 'rectangular', low: 268.15, high: 288.15 } });
  });

  it.each(['0.8 .. 1.0 m', '0.8 m .. 1.0 m', '0.8..1.0 m', '80 cm … 1 m', '0.8 m ... 1'])(
    'reads a rectangle in %s',
    text => {
      const { value, spread } = readQuantity(text, 'm');
      expect(value).toBeCloseTo(0.9, 15);
      expect(spread).toEqual({ kind: 'rectangular', low: 0.8, high: 1 });
    },
  );

  it('takes no spread from ± 0', () => {
    expect(readQuantity('5 kg ± 0 kg', 'kg')).toEqual({ value: 5 });
  });
});

describe('what readQuantity refuses', () => {
  it.each([
    // text, unit, message, marked, cure
    ['1010', 'kg', '1010 has no unit', '1010', ''],
    ['1010 ± 15', 'kg', '1010 has no unit', '1010', ''],
    ['10 kgs', 'kg', 'unknown unit "kgs"', 'kgs', 'kg'],
    ['10 KG', 'kg', 'unknown unit "KG"', 'KG', 'kg'],
    ['80 KW', 'W', 'unknown unit "KW"', 'KW', 'kW'],
    ['80 kwh', 'J', 'unknown unit "kwh"', 'kwh', 'kWh'],
    ['100 kmh/h', 'm/s', '"100 kmh/h" is an acceleration', 'kmh/h', ''],
    ['9000 rmp', 'rad/s', 'unknown unit "rmp"', 'rmp', 'rpm'],
    ['80 kg', 'W', '"80 kg" is a mass', 'kg', ''],
    ['10 ton', 'kg', '"ton" is another unit in another country', 'ton', 'tonne'],
    ['300 nm', 'N m', '"300 nm" is a length', 'nm', 'Nm'],
    ['220 ft lb', 'N m', '"220 ft lb" is a quantity in ft lb', 'ft lb', 'lbf ft'],
    ['500 lb', 'N', '"500 lb" is a mass', 'lb', 'lbf'],
    ['0.8 g', 'm/s^2', '"0.8 g" is a mass', 'g', 'g0'],
    ['25 C', 'K', '"25 C" is a charge', 'C', '°C'],
    ['77 F', 'K', '"77 F" is a capacitance', 'F', '°F'],
    ['100 km', 'm/s', '"100 km" is a length', 'km', 'km/h'],
    ['50 kW', 'J', '"50 kW" is a power', 'kW', 'kWh'],
    ['200 Hz', 'rad/s', '"200 Hz" is a rate', 'Hz', 'rev/s'],
    ['3 deg', '1', '"3 deg" is an angle', 'deg', ''],
    ['50 rpm', '1/s', '"50 rpm" is a rotational speed', 'rpm', ''],
    ['55 kg', '1', '"55 kg" is a mass', 'kg', ''],
    ['1,5 kW', 'W', 'a comma between digits', '1,5', '1.5'],
    ['1,010 kg', 'kg', 'a comma between digits', '1,010', ''],
    ['1.010,5 kg', 'kg', 'a comma between digits', '1.010,5', '1010.5'],
    ['1,010,000.5 kg', 'kg', 'a comma between digits', '1,010,000.5', ''],
    ['1 010 kg', 'kg', 'digits are written without a gap', '1 010', '1010'],
    ["12'000 W", 'W', 'digits are written without a gap', "12'000", '12000'],
    ['1_000 W', 'W', 'digits are written without a gap', '1_000', '1000'],
    ['3 2 kg', 'kg', 'two numbers and nothing between them', '3 2', ''],
    ['1010 15 kg', 'kg', 'two numbers and nothing between them', '1010 15', ''],
    ['1010 kg 15 kg', 'kg', 'an operator is missing before this number', '15', ''],
    ['3/2 kg', 'kg', '"/" cannot stand here', '/', ''],
    ['0.8 .. 60 %', '1', 'it is not clear whether 0.8 is in percent', '0.8', '0.8 %'],
    ['0.55 ± 2 %', '1', 'it is not clear whether 0.55 is in percent', '0.55', '0.55 %'],
    ['20 °C ± 5 %', 'K', 'a percentage of a temperature depends on its scale', '5', ''],
    ['5 kg ± -1 kg', 'kg', 'a spread cannot be negative', '-1', ''],
    ['5 kg ± 1 ± 2', 'kg', 'more than one spread', '±', ''],
    ['2 .. 1 m', 'm', 'the lower end must be below the upper end', '2 .. 1', ''],
    ['5 kg ±', 'kg', 'no value', '±', ''],
    ['± 5 kg', 'kg', 'no value', '±', ''],
    ['about 5 kg', 'kg', '"about 5 kg" is no number', 'about 5 kg', '5 kg'],
    ['NaN', 'kg', '"NaN" is no number', 'NaN', ''],
    ['Infinity kg', 'kg', '"Infinity kg" is no number', 'Infinity kg', ''],
    ['1e999 kg', 'kg', '1e999 is too large', '1e999', ''],
    ['1e308 km', 'm', '1e308 is too large', '1e308', ''],
    ['1/0', '1', 'division by zero', '1/0', ''],
    ['50 kW + 3', 'W', 'this is no unit', 'kW + 3', ''],
    ['5 kg^m', 'kg', 'this is no unit', 'kg^m', ''],
    ['5 min(3)', 's', 'this is no unit', 'min(3', ''],
    ['5 % 3', '1', 'a percent sign ends a number', '%', ''],
    ['5 constructor', 'm', 'unknown unit "constructor"', 'constructor', ''],
    ['5 kg;', 'kg', '"5 kg;" is no number', '5 kg;', '5 kg'],
    ['5 kg/', 'kg', 'something is missing at the end', '/', ''],
    ['5 kg (m', 'kg m', 'something is missing at the end', 'm', ''],
    ['5 kW / (1 + h)', 'W', 'this is no unit', '1 + h', ''],
  ])('%j as %s', (text, unit, message, part, cure) => {
    const error = wrong(text, unit);
    expect([error.message, marked(text, error), error.nearest]).toEqual([message, part, cure]);
    if (cure === '') return;
    const cured = text.slice(0, error.offset) + cure + text.slice(error.offset + error.length);
    expect(() => readQuantity(cured, unit)).not.toThrow();
  });

  it('names the kind of quantity with an example', () => {
    expect(wrong('1010', 'kg').expected).toBe('a mass such as "1010 kg"');
    expect(wrong('80 kg', 'W').expected).toBe('a power such as "80 kW"');
    expect(wrong('', 'N m').expected).toBe('a torque such as "250 N m"');
    expect(wrong('5 kg', 's/m').expected).toBe('a quantity in s/m such as "1 s/m"');
  });

  it('always marks at least one character, and none outside of the text', () => {
    const text = fc.stringMatching(/^[0-9a-zA-Z .,±%°²^*/()+-]{0,12}$/u);
    fc.assert(
      fc.property(text, fc.constantFrom('kg', 'K', '1', 'rad/s', 'W/(N m)^2'), (text, unit) => {
        try {
          expect(Number.isFinite(readQuantity(text, unit).value)).toBe(true);
        } catch (error) {
          if (!(error instanceof UnitError)) throw error;
          expect(error.length).toBeGreaterThan(0);
          expect(error.offset).toBeGreaterThanOrEqual(0);
          expect(error.offset + error.length).toBeLessThanOrEqual(Math.max(1, text.length));
        }
      }),
      { numRuns: 2000, seed: 811 },
    );
  });
});

describe('toDisplay and fromDisplay', () => {
  it.each([
    [27.777777777777779, 'm/s', 'km/h', 100],
    [942.4777960769379, 'rad/s', 'rpm', 9000],
    [293.15, 'K', 'degC', 20],
    [293.15, 'K', 'degF', 68],
    [540, 'J/m', 'Wh/km', 150],
    [0.55, '1', '%', 55],
    [180_000, 'C', 'Ah', 50],
    [5, '1', '1', 5],
    [0.0254, 'm', 'in', 1],
  ])('%f %s is %s %f', (value, unit, display, shown) => {
    expect(toDisplay(value, unit, display)).toBeCloseTo(shown, 9);
    expect(fromDisplay(shown, display, unit)).toBeCloseTo(value, 9);
  });

  it('refuses a unit of another kind', () => {
    expect(() => toDisplay(1, 'kg', 'km/h')).toThrow('"km/h" cannot show a mass');
    expect(() => fromDisplay(1, 'kW', 'J')).toThrow(UnitError);
  });
});

describe('formatQuantity', () => {
  it.each([
    [1010, 'kg', 'kg', '1010 kg'],
    [27.777777777777779, 'm/s', 'km/h', '100 km/h'],
    [4.8123, 's', 's', '4.812 s'],
    [293.15, 'K', 'degC', '20 °C'],
    [0.65, 'm^2', 'm^2', '0.65 m²'],
    [0.002, 'ohm', 'mohm', '2 mΩ'],
    [0.55, '1', '%', '55 %'],
    [8.5, '1', '1', '8.5'],
    [12345.6, 'W', 'W', '12346 W'],
    [9.9999, 'W', 'W', '10 W'],
    [0.00012, 'ohm', 'ohm', '0.00012 Ω'],
    [1.23e-7, 'ohm', 'ohm', '1.23e-7 Ω'],
    [1.5e20, 'W', 'W', '1.5e20 W'],
    [1e-10, 'W', 'W', '1e-10 W'],
    [-0.00001, '1', '1', '-1e-5'],
    [-0, '1', '1', '0'],
    [250, 'N m', 'Nm', '250 N m'],
  ])('%f %s in %s', (value, unit, display, text) => {
    expect(formatQuantity(value, unit, display)).toBe(text);
  });

  // JCGM 100:2008, 7.2.6: two digits of the uncertainty are enough, and the value is rounded to agree with it.
  it.each([
    [1010, 15, '1010 kg ± 15 kg'],
    [1010, 2, '1010 kg ± 2 kg'],
    [1234.5, 150, '1230 kg ± 150 kg'],
    [4.8123, 0.1234, '4.81 kg ± 0.12 kg'],
    [4.8123, 0.1, '4.81 kg ± 0.10 kg'],
    [4.8, 0.0996, '4.8 kg ± 0.1 kg'],
    [0, 2, '0 kg ± 2 kg'],
    [-0.001, 2, '0 kg ± 2 kg'],
  ])('%f with a standard uncertainty of %f', (value, standard, text) => {
    expect(formatQuantity(value, 'kg', 'kg', { spread: { kind: 'normal', standard } })).toBe(text);
  });

  it('shows the ends of a rectangle, and spreads of temperatures as differences', () => {
    const rectangle = { kind: 'rectangular', low: 0.8, high: 1 } as const;
    expect(formatQuantity(0.9, 'm', 'm', { spread: rectangle })).toBe('0.8 m .. 1 m');
    const normal = { kind: 'normal', standard: 2 } as const;
    expect(formatQuantity(293.15, 'K', 'degF', { spread: normal })).toBe('68.0 °F ± 3.6 °F');
  });

  it('refuses what is not finite', () => {
    expect(() => formatNumber(NaN)).toThrow(RangeError);
    expect(() => formatQuantity(Infinity, 'kg', 'kg')).toThrow(RangeError);
  });

  const shown = [
    ['kg', 'lb'],
    ['m/s', 'mph'],
    ['K', 'degF'],
    ['K', 'degC'],
    ['N m', 'lbf ft'],
    ['1', '%'],
    ['ohm', 'uohm'],
    ['W/(N m)^2', 'W/(N m)^2'],
    ['kg m^2', 'kg m^2'],
    ['rad/s', 'rpm'],
    ['J/m', 'kWh/100 km'],
    ['m^2', 'ft^2'],
  ] as const;

  it('is read back as what it was', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.constantFrom(...shown),
        (value, [unit, display]) => {
          const text = formatQuantity(value, unit, display, { digits: 15 });
          const error = Math.abs(readQuantity(text, unit).value - value);
          expect(error).toBeLessThanOrEqual(1e-13 * Math.abs(value) + (unit === 'K' ? 1e-10 : Number.MIN_VALUE * 1e6));
        },
      ),
      { seed: 100 },
    );
  });

  it('is read back with its spread, to the digits that are shown', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1, noNaN: true }),
        fc.constantFrom(...shown),
        (value, share, [unit, display]) => {
          const standard = value * share;
          const text = formatQuantity(value, unit, display, { spread: { kind: 'normal', standard } });
          const read = readQuantity(text, unit);
          const u = read.spread?.kind === 'normal' ? read.spread.standard : NaN;
          expect(Math.abs(u / standard - 1)).toBeLessThan(0.051);
          expect(Math.abs(read.value - value)).toBeLessThan(0.051 * standard * 1.0001 + 1e-9 * value);
        },
      ),
      { seed: 726 },
    );
  });
});

describe('dimensions', () => {
  it('has words for them', () => {
    const words = ['kg', 'm/s', 'N m', 'J', 'W', 'rad/s', '1/s', '1', 'J/m', 'km/h', 'Ah', 's/m'].map(dimensionName);
    expect(words).toEqual([
      'mass',
      'speed',
      'torque',
      'energy',
      'power',
      'rotational speed',
      'rate',
      'pure number',
      'energy per distance',
      'speed',
      'charge',
      'quantity in s/m',
    ]);
    expect(describeUnit('m/s')).toBe('a speed such as "100 km/h"');
  });

  it('does not count an angle', () => {
    expect(sameDimension('N m rad/s', 'W')).toBe(true);
    expect(sameDimension('rpm', '1/s')).toBe(true);
    expect(sameDimension('N m', 'J')).toBe(true);
    expect(sameDimension('N', 'J')).toBe(false);
  });

  it.each([
    'kg',
    'm',
    'm^2',
    'N m',
    'W',
    'V',
    'A',
    'ohm',
    'K',
    'rad/s',
    'm/s',
    'J',
    'C',
    'kg m^2',
    '1',
    'Pa',
    's',
    's/m',
    's^2/m^2',
    'W/(N m)^2',
    'W s/rad',
    'W s^3/rad^3',
    'N',
    'J/m',
  ])('takes one %s as 1', unit => {
    expect(toDisplay(1, unit, unit)).toBe(1);
    if (unit !== '1') expect(readQuantity(`1 ${unit}`, unit).value).toBe(1);
  });

  it('writes units as people do', () => {
    expect(['m^2', 'degC', 'mohm', 'uohm', '1', 'percent', 'Nm', 'lbf ft', 'kg m^2', 'm^20'].map(unitLabel)).toEqual([
      'm²',
      '°C',
      'mΩ',
      'µΩ',
      '',
      '%',
      'N m',
      'lbf ft',
      'kg m²',
      'm^20',
    ]);
  });
});
