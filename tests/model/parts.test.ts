import { describe, expect, it } from 'vitest';
import type { Field, Fields } from '../../src/model/fields/field.ts';
import { shippedPart, shippedParts } from '../../src/model/parts/shipped.ts';
import type { ShippedPart } from '../../src/model/parts/part.ts';
import type { Input } from '../../src/model/fields/input.ts';
import { completePack } from '../../src/model/pack/complete.ts';
import { completeTyre } from '../../src/model/tyre/complete.ts';
import { cabinFields } from '../../src/model/cabin/fields.ts';
import { cellFields, packFields } from '../../src/model/pack/fields.ts';
import { tyreFields } from '../../src/model/tyre/fields.ts';
import { unitFields } from '../../src/model/drive/fields.ts';

const FIELDS: { readonly [K in ShippedPart['kind']]: Fields } = {
  cabin: cabinFields,
  cell: cellFields,
  pack: packFields,
  tyre: tyreFields,
  unit: unitFields,
};

const parts = shippedParts().map(part => [part.name, part] as const);

function numbersOf(value: unknown): number[] {
  return typeof value === 'number' ? [value] : Array.isArray(value) ? value.map(Number) : [];
}

describe('shipped parts', () => {
  it('have names of their own', () => {
    const names = parts.map(([name]) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^(cabin|cell|pack|tyre|unit)_[a-z0-9_]+$/);
  });

  it('are found by kind and name', () => {
    expect(shippedPart('tyre', 'tyre_economy')?.title).toMatch(/class B/);
    expect(shippedPart('cell', 'tyre_economy')).toBeNull();
    expect(shippedPart('unit', 'nothing')).toBeNull();
    expect(shippedParts('unit').every(part => part.kind === 'unit')).toBe(true);
  });

  it.each(parts)('%s keeps to the field table of its kind', (_, part) => {
    const fields = FIELDS[part.kind];
    for (const [key, value] of Object.entries(part.values)) {
      const field: Field | undefined = fields[key];
      expect(field, key).toBeDefined();
      if (field?.kind !== 'number' && field?.kind !== 'numbers') continue;
      for (const number of numbersOf(value)) {
        expect(number, key).toBeGreaterThanOrEqual(field.min);
        expect(number, key).toBeLessThanOrEqual(field.max);
      }
    }
  });

  it.each(parts)('%s says what the field table requires, with a source', (_, part) => {
    for (const [key, field] of Object.entries(FIELDS[part.kind])) {
      const required = 'required' in field && field.required;
      if (required) expect(part.values, key).toHaveProperty(key);
    }
    expect(part.source.length).toBeGreaterThan(30);
  });

  it.each(parts)('%s has its values inside their spreads', (_, part) => {
    for (const [key, spread] of Object.entries(part.spreads)) {
      const value = (part.values as { [key: string]: unknown })[key];
      expect(typeof value, key).toBe('number');
      if (spread?.kind !== 'rectangular') continue;
      expect(spread.low, key).toBeLessThan(value as number);
      expect(spread.high, key).toBeGreaterThan(value as number);
    }
  });

  it.each(shippedParts('tyre').map(part => [part.name, part] as const))('%s completes to a tyre', (_, part) => {
    const inputs: Input[] = [];
    const tyre = completeTyre('tyres', part.values, inputs);
    expect(tyre.dry.slide).toBeLessThan(tyre.dry.peak);
    expect(tyre.wet.slide).toBeLessThan(tyre.wet.peak);
    expect(tyre.wet.peak).toBeLessThan(tyre.dry.peak);
    expect(tyre.radius).toBeGreaterThan(0.25);
  });

  it.each(shippedParts('pack').map(part => [part.name, part] as const))('%s completes to a pack', (_, part) => {
    const pack = completePack('pack', part.values, []);
    const { charge, voltage } = pack.cell.ocv;
    let mean = 0;
    for (let k = 1; k < charge.length; k++) {
      mean += (((voltage[k] ?? 0) + (voltage[k - 1] ?? 0)) / 2) * ((charge[k] ?? 0) - (charge[k - 1] ?? 0));
    }
    const kilowattHours = (mean * pack.series * pack.parallel * pack.cell.capacity) / 3.6e6;
    const stated = Number(/about (\d+) kWh/.exec(part.title)?.[1]);
    expect(Math.round(kilowattHours)).toBe(stated);
    expect(pack.series * Math.max(...voltage)).toBeLessThanOrEqual(pack.maxVoltage);
  });

  it('tyres roll at 80 km/h as their label class says (ISO 28580; Regulation (EC) 1222/2009, kg/t)', () => {
    const limits = {
      tyre_economy: [6.6, 7.7],
      tyre_touring: [7.8, 9],
      tyre_sport: [9.1, 10.5],
      tyre_narrow: [12.1, 99],
    };
    for (const [name, [low, high]] of Object.entries(limits)) {
      const tyre = completeTyre('', shippedPart('tyre', name)?.values ?? {}, []);
      const { c0, c1, c2 } = tyre.rolling;
      const label = 1000 * (c0 + (c1 * 80) / 3.6 + c2 * (80 / 3.6) ** 2);
      expect(label).toBeGreaterThanOrEqual(low as number);
      expect(label).toBeLessThanOrEqual(high as number);
    }
  });
});
