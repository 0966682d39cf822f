/** Any values for any field table, inside the limits that the table itself states. */
import type { Field, Fields, GroupField } from '../../src/model/fields/field.ts';
import { shippedParts } from '../../src/model/parts/shipped.ts';
import { writtenKey } from '../../src/notebook/fields/read-context.ts';
import { type Entries, isList, type Value } from './page.ts';
import { anyValue, quantity } from './quantity.ts';
import type { Random } from './random.ts';

export interface Surroundings {
  /** Names of cells by kind, for references. */
  readonly cells: { readonly [kind: string]: readonly string[] };
  /** Share of the optional fields that are written. */
  readonly share: number;
}

const SIZES = ['145/80 R 13', '165/70 R 13', '205/55 R 16', '245/35 R 20', '155 R 15', '5.60-15', '135/80 R 12 68S'];
const FILES: { readonly [key: string]: string } = { map: 'map.csv', torqueTable: 'torque.csv', log: 'way.csv' };

/** Whole numbers of which the table does not say so. */
const WHOLE = new Set(['gear', 'count', 'phases', 'times', 'legs']);

/** Fields that only make sense with others, which a workshop does not write by accident. */
const ALONE = new Set(['secondDrive', 'frontTorqueShare', 'roadLoad', 'mapIncludes', 'efficiencyPoints', 'map']);

/** Fields that only make sense with others: columns of a table, each as long as the other. */
const COLUMNS: readonly (readonly [string, string])[] = [
  ['tableSpeed', 'tableTorque'],
  ['ocvCharge', 'ocvVoltage'],
  ['resistanceCharge', 'resistanceOhm'],
  ['pairResistance', 'pairTimeConstant'],
];

/** Entries for a table; those of `fixed` stand as they are (null leaves one out). */
export function anyFields(
  random: Random,
  fields: Fields,
  around: Surroundings,
  fixed: { readonly [key: string]: Value | null } = {},
): Entries {
  const lengths = new Map<string, number>();
  for (const [first, second] of COLUMNS) {
    const needed = fields[first]?.required === true || random.chance(0.1);
    const length = needed ? random.whole(1, 6) : 0;
    lengths.set(first, length);
    lengths.set(second, random.chance(0.95) ? length : random.whole(1, 6));
  }
  return Object.entries(fields).flatMap(([key, field]): [string, Value][] => {
    const given = fixed[key];
    if (given === null) return [];
    if (given !== undefined) return [[writtenKey(key), given]];
    const length = lengths.get(key);
    if (length === undefined ? field.required !== true && !random.chance(around.share) : length === 0) return [];
    const value = anyField(random, key, field, around, length ?? random.whole(1, 4));
    return value === null ? [] : [[writtenKey(key), value]];
  });
}

function anyField(random: Random, key: string, field: Field, around: Surroundings, length: number): Value | null {
  switch (field.kind) {
    case 'number':
      return field.whole === true || WHOLE.has(key)
        ? String(Math.round(anyValue(random, field)))
        : anyNumber(random, field);
    case 'choice':
      return random.of(field.choices);
    case 'numbers': {
      const top = random.chance(0.5) ? field.max : Math.min(field.max, Math.max(field.min, 1) * 100);
      const values = Array.from({ length }, () => random.between(field.min, top));
      const display = field.display ?? { metric: field.unit, imperial: field.unit };
      const listed = values.toSorted((a, b) => a - b).map(value => quantity({ unit: field.unit, display }, value));
      return `[${listed.join(', ')}]`;
    }
    case 'text':
      return key === 'size' ? random.of(SIZES) : key === 'name' ? `thing ${random.whole(1, 99)}` : (FILES[key] ?? null);
    case 'reference': {
      const names = field.to.flatMap(kind => around.cells[kind] ?? []);
      return names.length === 0 ? null : random.of(names);
    }
    case 'words':
      return null;
    case 'group':
      return anyGroup(random, field, around);
    default:
      return Array.from({ length: random.whole(1, 4) }, () => anyFields(random, field.fields, around));
  }
}

function anyNumber(random: Random, field: Extract<Field, { kind: 'number' }>): string {
  const value = anyValue(random, field);
  const text = quantity(field, value, random.chance(0.7) ? 3 : 'all');
  const kind = random.next();
  if (kind < 0.03 && field.unit !== 'K') return `= ${text.replace(/^(\S+)(.*)$/, '$1$2')} * 1`;
  if (kind < 0.08 && field.unit !== 'K' && field.unit !== '1') return `${text} ± 1 %`;
  return text;
}

/** Some of the fields of what stands there given another value, some left out, some added, down to the last group. */
export function sillier(random: Random, entries: Entries, fields: Fields, around: Surroundings): Entries {
  const known = new Map(Object.entries(fields).map(([key, field]) => [writtenKey(key), { key, field }]));
  const kept = entries.flatMap(([key, value]): [string, Value][] => {
    const found = known.get(key);
    if (found === undefined) return [[key, value]];
    const { field } = found;
    if (field.kind === 'group' && typeof value !== 'string' && !isList(value)) {
      return [[key, sillier(random, value, field.fields, around)]];
    }
    if (field.required !== true && random.chance(0.03)) return [];
    const other = random.chance(0.1) ? anyField(random, found.key, field, around, 3) : null;
    return [[key, other ?? value]];
  });
  const written = new Set(entries.map(([key]) => key));
  const added = [...known].flatMap(([key, { key: own, field }]): [string, Value][] => {
    const column = COLUMNS.some(pair => pair.includes(own));
    if (written.has(key) || column || ALONE.has(own) || !random.chance(around.share)) return [];
    const value = anyField(random, own, field, around, 3);
    return value === null ? [] : [[key, value]];
  });
  return [...kept, ...added];
}

function anyGroup(random: Random, field: GroupField, around: Surroundings): Value {
  if (field.part !== '' && random.chance(0.4)) {
    const shipped = shippedParts().filter(({ kind }) => kind === field.part);
    const own = around.cells[field.part] ?? [];
    // Of some kinds nothing ships.
    if (own.length > 0 && (shipped.length === 0 || random.chance(0.5))) return random.of(own);
    if (shipped.length > 0) return random.of(shipped).name;
  }
  const from = field.part !== '' && random.chance(0.3) ? shippedParts().filter(({ kind }) => kind === field.part) : [];
  const entries = anyFields(random, field.fields, around);
  return from.length === 0 ? entries : [['from', random.of(from).name], ...entries];
}
