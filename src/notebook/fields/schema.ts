/**
 * What cells take as JSON Schema (draft 2020-12), for editors that complete and check YAML: generated from the tables that read it. A
 * number of another unit than 1 is text (`1240 kg`), and so is a formula.
 */
import type { Field, Fields, NumberField, NumbersField } from '../../model/fields/field.ts';
import { formatQuantity, unitLabel } from '../../units.ts';
import { partFields } from '../cells/part.ts';
import { CELL_KINDS } from '../cells/registry.ts';
import { writtenKey } from './read-context.ts';

export type Schema = { readonly [key: string]: unknown };

const DRAFT = 'https://json-schema.org/draft/2020-12/schema';

/** Every kind of cell under `$defs` by its name, every kind of part as `part.tyre`; a cell is one of them. */
export function cellsSchema(): Schema {
  const cells = CELL_KINDS.filter(({ language, kind }) => language === 'yaml' && kind !== 'part').map(
    ({ kind, doc, fields, beside }): readonly [string, Schema] => [
      kind,
      beside === 'list'
        ? { type: 'array', items: { anyOf: [{ type: 'string' }, PROMISE] }, description: doc }
        : groupSchema(doc, fields, beside === 'grammar' ? null : beside === 'from' ? { from: FROM } : {}),
    ],
  );
  const parts = [...partFields].map(([kind, fields]): readonly [string, Schema] => [
    `part.${kind}`,
    groupSchema(`a ${kind} as a part`, fields, { kind: { const: kind }, from: FROM }, ['kind']),
  ]);
  const all = [...cells, ...parts];
  return {
    $schema: DRAFT,
    title: 'Cells of an axlewatt notebook',
    anyOf: all.map(([name]) => ({ $ref: `#/$defs/${name}` })),
    $defs: Object.fromEntries(all),
  };
}

/** The schema of one kind of cell, or of a kind of part: `launch`, `part.tyre`; null where there is none. */
export function cellSchema(name: string): Schema | null {
  const { $defs } = cellsSchema() as { readonly $defs: { readonly [name: string]: Schema } };
  const found = Object.hasOwn($defs, name) ? $defs[name] : undefined;
  return found === undefined ? null : { $schema: DRAFT, ...found };
}

/** A comparison behind the words of the promise that it holds. */
const PROMISE: Schema = {
  type: 'object',
  additionalProperties: { type: 'string' },
  minProperties: 1,
  maxProperties: 1,
};
const FROM: Schema = { type: 'string', description: 'another one, which gives what is left out here' };

/** @param open what it takes that its table does not say; null where that may be anything. */
function groupSchema(
  description: string,
  fields: Fields,
  open: { readonly [key: string]: Schema } | null = {},
  required: readonly string[] = [],
): Schema {
  return {
    type: 'object',
    description,
    properties: {
      ...Object.fromEntries(Object.entries(fields).map(([key, field]) => [writtenKey(key), fieldSchema(field)])),
      ...open,
    },
    ...(required.length > 0 && { required }),
    ...(open !== null && { additionalProperties: false }),
  };
}

function fieldSchema(field: Field): Schema {
  const description = describe(field);
  switch (field.kind) {
    case 'number':
      return { ...valueSchema(field), description };
    case 'numbers':
      return { anyOf: [{ type: 'array', items: valueSchema(field) }, LISTED], description };
    case 'choice':
      return { enum: field.choices, description };
    case 'text':
      return { type: ['string', 'number'], description };
    case 'reference':
      return { type: 'string', description };
    case 'words':
      return {
        anyOf: [{ type: ['string', 'number'] }, { type: 'array', items: { type: ['string', 'number'] } }],
        description,
      };
    case 'group': {
      const inside = groupSchema(description, field.fields, field.part === '' ? {} : { from: FROM });
      return field.part === '' ? inside : { anyOf: [{ type: 'string' }, inside], description };
    }
    case 'groups':
      return { type: 'array', items: groupSchema(description, field.fields), description };
  }
  return field satisfies never;
}

/** A list in one line: `8, 9, 10`, or of one value. */
const LISTED: Schema = { type: ['number', 'string'] };

function valueSchema(field: NumberField | NumbersField): Schema {
  return field.unit === '1' ? { type: ['number', 'string'] } : { type: 'string' };
}

/** The words of the reference: meaning, unit, default, source. */
function describe(field: Field): string {
  const parts: string[] = [field.doc];
  if (field.kind === 'number' || field.kind === 'numbers') {
    const unit = unitLabel(field.display?.metric ?? field.unit);
    if (unit !== '') parts.push(`in ${unit} or any unit of its kind`);
  }
  if (field.required === true) parts.push('required');
  if (field.kind === 'number' && field.derived !== undefined) parts.push(`left out: ${field.derived}`);
  else if (field.kind === 'number' && field.default !== undefined) {
    const { value, source } = field.default;
    parts.push(`left out: ${formatQuantity(value, field.unit, field.display.metric)}, ${source}`);
  } else if (field.kind === 'choice' && field.default !== undefined) {
    parts.push(`left out: ${field.default.value}, ${field.default.source}`);
  }
  return parts.join('; ');
}
