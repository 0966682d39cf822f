/** The schema of the cells against a general validator of JSON Schema, over the examples and over what must be refused. */
import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CELL_KINDS } from '../../../src/notebook/cells/registry.ts';
import { cellSchema, cellsSchema } from '../../../src/notebook/fields/schema.ts';

const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true });

interface Cell {
  readonly where: string;
  readonly kind: string;
  readonly value: unknown;
}

const cells = readdirSync('scenarios')
  .filter(file => file.endsWith('.md'))
  .flatMap(file =>
    [...readFileSync(`scenarios/${file}`, 'utf8').matchAll(/^```yaml (\w+)(?: \w+)?\n(.*?)^```$/gmsu)].map(
      ([, kind = '', text = '']): Cell => {
        const value: unknown = parse(text);
        const part = kind === 'part' ? `part.${(value as { readonly kind: string }).kind}` : kind;
        return { where: `${file}: ${text.slice(0, 40)}`, kind: part, value };
      },
    ),
  );

const wrong = (kind: string, value: unknown): string => {
  const schema = cellSchema(kind);
  if (schema === null) throw new Error(`no schema of ${kind}`);
  const validate = ajv.compile(schema);
  return validate(value) ? '' : ajv.errorsText(validate.errors);
};

describe('the schema of the cells', () => {
  it('is a schema, with one definition for each kind of cell that is YAML', () => {
    const whole = cellsSchema();
    expect(ajv.validateSchema(whole)).toBe(true);
    const kinds = CELL_KINDS.filter(({ language, kind }) => language === 'yaml' && kind !== 'part');
    for (const { kind } of kinds) expect(Object.keys(whole['$defs'] as object)).toContain(kind);
    expect(ajv.compile(whole)({ car: 'one', to: '80 km/h' })).toBe(true);
  });

  it('takes every cell of the examples', () => {
    expect(cells.length).toBeGreaterThan(60);
    for (const { where, kind, value } of cells) expect(wrong(kind, value), where).toBe('');
  });

  it.each([
    ['car', { mass: '1100 kg', tyers: { size: '185/65 R 15' } }, 'additional properties'],
    ['car', { mass: 1100 }, 'must be string'],
    ['launch', { car: 'one', surface: 'damp' }, 'must be equal to one of the allowed values'],
    ['part.tyre', { kind: 'unit', dry_peak: 0.9 }, 'must be equal to constant'],
    ['drive', { car: 'one', trip: [{ schedule: 'wltc', tims: 2 }] }, 'additional properties'],
    ['check', { a: 1 }, 'must be array'],
  ])('refuses in a %s: %j', (kind, value, words) => {
    expect(wrong(kind, value)).toContain(words);
  });

  it('says unit, default and source of each field', () => {
    const { properties } = cellSchema('launch') as {
      readonly properties: { readonly to: { readonly description: string } };
    };
    expect(properties.to.description).toMatch(
      /in km\/h or any unit of its kind; left out: 100 km\/h, the usual question/u,
    );
  });
});
