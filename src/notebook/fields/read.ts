/** Reads the mapping of a cell by a table of fields: one pass, all problems, nothing assumed. */
import type {
  ChoiceField,
  Field,
  Fields,
  GroupField,
  GroupsField,
  ReferenceField,
  TextField,
  WordsField,
} from '../../model/fields/field.ts';
import type { Input, Origin, Spread } from '../../model/fields/input.ts';
import { formatNumber, toDisplay } from '../../units.ts';
import { describeField, displayOf } from './describe.ts';
import {
  type LocatedEntry,
  type LocatedMap,
  type LocatedNode,
  type LocatedScalar,
  type Place,
  problemAt,
} from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import type { ProblemData } from '../document/problem.ts';
import {
  type FieldValue,
  type FieldValues,
  type Part,
  type ReadContext,
  type ReadResult,
  writtenKey,
} from './read-context.ts';
import { readNumbers } from './read-list.ts';
import { readNumber } from './read-number.ts';
import { wordsIn } from './read-words.ts';

export { type FieldNames, fieldNames } from './field-names.ts';
export {
  type FieldValue,
  type FieldValues,
  type Part,
  type ReadContext,
  type ReadResult,
  writtenKey,
} from './read-context.ts';

/**
 * Values and inputs of a mapping. `part` is the kind of part that the mapping describes, if it does: it may then say
 * `from: NAME` and leave out what that part has.
 */
export function readFields(map: LocatedMap, fields: Fields, context: ReadContext, part = ''): ReadResult {
  const reading = new Reading(context);
  const draft: Draft = new Map();
  reading.readMap(draft, map, fields, { path: context.path, part, chain: [] });
  reading.requireAll(draft, fields, context.path, map);
  return { values: plain(draft), inputs: [...reading.inputs.values()], problems: reading.sorted() };
}

/** Values while they are read: what a part brought in is written over by what stands beside `from`. */
type Draft = Map<string, FieldValue | Draft | Rows>;

/** The groups of a list while they are read. */
class Rows {
  readonly rows: readonly { readonly draft: Draft; readonly place: Place }[];
  constructor(rows: Rows['rows']) {
    this.rows = rows;
  }
}

function plain(draft: Draft): FieldValues {
  return Object.fromEntries([...draft].map(([key, value]) => [key, plainValue(value)]));
}

function plainValue(value: FieldValue | Draft | Rows): FieldValue {
  if (value instanceof Rows) return value.rows.map(row => plain(row.draft));
  return value instanceof Map ? plain(value) : value;
}

/** Groups that a list may have. */
const MOST_ROWS = 200;

/** Where the reading stands. */
interface Spot {
  readonly path: string;
  /** Kind of part that the mapping may name with `from`; '' for none. */
  readonly part: string;
  /** Names of the parts that are being read, the outermost first. */
  readonly chain: readonly string[];
}

class Reading {
  /** By path. */
  readonly inputs = new Map<string, Input>();
  readonly #problems: ProblemData[] = [];
  /** Paths that a problem is about already: such a field or group is not missing as well. */
  readonly #blamed = new Set<string>();
  /** Places of the groups, for what they lack. */
  readonly #groups = new Map<string, Place>();
  readonly #context: ReadContext;

  constructor(context: ReadContext) {
    this.#context = context;
  }

  sorted(): readonly ProblemData[] {
    return this.#problems.toSorted((a, b) => a.line - b.line || a.column - b.column);
  }

  readMap(draft: Draft, map: LocatedMap, fields: Fields, spot: Spot): void {
    const from = map.entries.find(({ key }) => key.text === 'from' && spot.part !== '');
    if (from !== undefined) this.#readFrom(draft, from.value, fields, spot);
    const keys = Object.keys(fields);
    for (const entry of map.entries) {
      if (entry === from) continue;
      const key = keys.find(name => writtenKey(name) === entry.key.text);
      const field = key === undefined ? undefined : fields[key];
      if (key === undefined || field === undefined) this.#unknownKey(entry, keys, spot);
      else this.#readField(draft, key, entry, field, { ...spot, path: `${spot.path}.${writtenKey(key)}` });
    }
  }

  /** Complains of required fields that neither the cell nor a part gave. */
  requireAll(draft: Draft, fields: Fields, path: string, place: Place): void {
    if (this.#blamed.has(path)) return;
    for (const [key, field] of Object.entries(fields)) {
      const below = `${path}.${writtenKey(key)}`;
      const value = draft.get(key);
      if (value === undefined && field.required === true && !this.#blamed.has(below)) {
        this.#fail(place, below, 'is missing', describeField(field));
      }
      if (field.kind === 'group' && value instanceof Map) {
        this.requireAll(value, field.fields, below, this.#groups.get(below) ?? place);
      }
      if (field.kind === 'groups' && value instanceof Rows) {
        for (const [i, row] of value.rows.entries()) {
          this.requireAll(row.draft, field.fields, rowPath(below, i), row.place);
        }
      }
    }
  }

  #fail(place: Place, path: string, message: string, expected = '', cure = ''): void {
    this.#blame(problemAt(place, path, message, expected, cure));
  }

  #blame(...problems: readonly ProblemData[]): void {
    this.#problems.push(...problems);
    for (const { path } of problems) this.#blamed.add(path);
  }

  #unknownKey({ key }: LocatedEntry, keys: readonly string[], { path, part }: Spot): void {
    const known = [...keys.map(writtenKey), ...(part === '' ? [] : ['from'])];
    const meant = nearest(key.text, known);
    this.#fail(key, `${path}.${key.text}`, `unknown key "${key.text}"`, `one of ${known.join(', ')}`, meant);
    this.#blamed.add(`${path}.${meant}`);
  }

  #readField(draft: Draft, key: string, { key: written, value: node }: LocatedEntry, field: Field, spot: Spot): void {
    if (node.kind === 'scalar' && node.value === null) {
      this.#fail(written, spot.path, 'has no value', describeField(field));
    } else if (field.kind === 'group') {
      this.#groups.set(spot.path, written);
      this.#readGroup(draft, key, node, field, spot);
    } else if (field.kind === 'groups') {
      this.#readGroups(draft, key, node, field, spot.path);
    } else if (field.kind === 'words') {
      this.#readWords(draft, key, node, field, spot.path);
    } else if (field.kind === 'numbers') {
      const { values, origin, problems } = readNumbers(node, field, spot.path, this.#context);
      this.#blame(...problems);
      this.#keep(draft, key, field, values, origin, spot.path);
    } else if (node.kind !== 'scalar') {
      this.#fail(node, spot.path, `is a ${node.kind === 'list' ? 'list' : 'group'}`, describeField(field));
    } else if (field.kind === 'number') {
      const { problem, ...read } = readNumber(node, field, spot.path, this.#context);
      if (problem !== undefined) this.#blame(problem);
      else if ('quantity' in read) {
        this.#keep(draft, key, field, read.quantity.value, read.origin, spot.path, read.quantity.spread);
        this.#markSpread(spot.path, read.spreadSource);
      }
    } else if (this.#accepts(node, field, spot.path)) {
      this.#keep(draft, key, field, node.text, givenAt(node), spot.path);
    }
  }

  /** Says that the spread of an input was given with nothing but its value. */
  #markSpread(path: string, spreadSource: string | undefined): void {
    const input = this.inputs.get(path);
    if (input !== undefined && spreadSource !== undefined) this.inputs.set(path, { ...input, spreadSource });
  }

  #accepts(node: LocatedScalar, field: ChoiceField | TextField | ReferenceField, path: string): boolean {
    const { text } = node;
    if (field.kind === 'text') return true;
    if (field.kind === 'choice') {
      if (field.choices.includes(text)) return true;
      this.#fail(node, path, `unknown word "${text}"`, describeField(field), nearest(text, field.choices));
      return false;
    }
    const kind = this.#context.cell(text);
    if (kind !== undefined && field.to.includes(kind)) return true;
    const message = kind === undefined ? `no cell is called "${text}"` : `"${text}" is a ${kind} cell`;
    this.#fail(node, path, message, describeField(field), nearest(text, this.#context.cells(field.to)));
    return false;
  }

  #readGroup(draft: Draft, key: string, node: LocatedNode, field: GroupField, { path, chain }: Spot): void {
    const spot = { path, part: field.part, chain };
    if (node.kind === 'list' || (node.kind === 'scalar' && field.part === '')) {
      this.#fail(node, path, 'is not a group', describeField(field));
      return;
    }
    const before = draft.get(key);
    const named = node.kind === 'scalar' || node.entries.some(entry => entry.key.text === 'from');
    const group: Draft = !named && before instanceof Map ? before : new Map();
    if (named) this.#forget(path);
    draft.set(key, group);
    if (node.kind === 'scalar') this.#readFrom(group, node, field.fields, spot);
    else this.readMap(group, node, field.fields, spot);
  }

  #readGroups(draft: Draft, key: string, node: LocatedNode, field: GroupsField, path: string): void {
    if (node.kind !== 'list') {
      this.#fail(node, path, 'is not a list', describeField(field));
      return;
    }
    if (node.items.length > MOST_ROWS) {
      this.#fail(node, path, `has more than ${MOST_ROWS} entries`);
      return;
    }
    this.#forget(path);
    const rows = node.items.map((item, i) => {
      const row: Draft = new Map();
      const below = rowPath(path, i);
      if (item.kind === 'map') this.readMap(row, item, field.fields, { path: below, part: '', chain: [] });
      else
        this.#fail(item, below, 'is not a group', `a group of ${Object.keys(field.fields).map(writtenKey).join(', ')}`);
      return { draft: row, place: item };
    });
    draft.set(key, new Rows(rows));
  }

  #readWords(draft: Draft, key: string, node: LocatedNode, field: WordsField, path: string): void {
    const words = wordsIn(node);
    if (words.length === 0 || (node.kind === 'list' && words.length < node.items.length)) {
      this.#fail(node, path, 'is no list of words', describeField(field));
      return;
    }
    for (const word of words) {
      const kind = field.to === undefined ? undefined : this.#context.cell(word.text);
      if (field.to === undefined || (kind !== undefined && field.to.includes(kind))) continue;
      const message = kind === undefined ? `no cell is called "${word.text}"` : `"${word.text}" is a ${kind} cell`;
      this.#fail(word, path, message, describeField(field), nearest(word.text, this.#context.cells(field.to)));
    }
    draft.set(
      key,
      words.map(({ text }) => text),
    );
  }

  /** Drops the inputs of a group that another part takes the place of. */
  #forget(path: string): void {
    for (const known of this.inputs.keys()) {
      if (known.startsWith(`${path}.`) || known.startsWith(`${path}[`)) this.inputs.delete(known);
    }
  }

  #readFrom(draft: Draft, node: LocatedNode, fields: Fields, { path, part, chain }: Spot): void {
    const name = node.kind === 'scalar' ? node.text : '';
    const found = name === '' ? undefined : this.#context.part(part, name);
    if (found === undefined) {
      const known = this.#context.parts(part);
      // A part whose name is misspelled may run later, for nothing else is known to need it.
      const unread = this.#context.cells(['part']).filter(cell => cell !== name);
      const expected = known.length === 0 ? `a part cell of kind ${part}` : `one of ${known.join(', ')}`;
      this.#fail(
        node,
        path,
        `no part of kind ${part} is called "${name}"`,
        expected,
        nearest(name, [...known, ...unread]),
      );
    } else if (chain.includes(`${part} ${name}`)) {
      this.#fail(node, path, `the part "${name}" is made from itself`);
    } else {
      this.#readPart(draft, found, fields, { path, part, chain: [...chain, `${part} ${name}`] });
    }
  }

  #readPart(draft: Draft, part: Part, fields: Fields, spot: Spot): void {
    if (part.kind === 'written') this.readMap(draft, part.map, fields, spot);
    else this.#copy(draft, part, fields, spot.path);
  }

  /** Takes the values of a shipped part over: they are in SI, and checked where they are kept. */
  #copy(draft: Draft, part: ShippedValues, fields: Fields, path: string): void {
    const { values, spreads, source } = part;
    for (const [key, value] of Object.entries(values)) {
      const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
      const below = `${path}.${writtenKey(key)}`;
      if (field === undefined) throw new Error(`a shipped part has a field "${key}" that ${path} does not have`);
      if (isGroup(value) && field.kind === 'group') {
        const group: Draft = new Map();
        draft.set(key, group);
        this.#copy(group, { values: value, spreads: {}, source }, field.fields, below);
      } else if (!isGroup(value) && !isGroups(value) && !isWords(value)) {
        this.#keep(draft, key, field, value, { kind: 'assumed', source }, below, spreads[key]);
      }
    }
  }

  #keep(
    draft: Draft,
    key: string,
    field: Field,
    value: number | string | readonly number[],
    origin: Origin,
    path: string,
    spread?: Spread,
  ): void {
    draft.set(key, value);
    if (field.kind === 'number' || field.kind === 'numbers') {
      const display = displayOf(field, this.#context.system);
      const shown = typeof value === 'object' ? listed(value, field.unit, display) : value;
      const input = { path, value: shown, unit: field.unit, display, origin };
      this.inputs.set(path, spread === undefined ? input : { ...input, spread });
    } else if (typeof value === 'string') {
      this.inputs.set(path, { path, value, unit: '', display: '', origin });
    }
  }
}

/** `coupe.out[2]` for the second group of a list: people count from one. */
function rowPath(path: string, index: number): string {
  return `${path}[${index + 1}]`;
}

function givenAt({ file, line, column }: Place): Origin {
  return { kind: 'given', file, line, column };
}

/** A shipped part, or a group inside one. */
type ShippedValues = Pick<Extract<Part, { readonly kind: 'shipped' }>, 'values' | 'spreads' | 'source'>;

function isGroup(value: FieldValue): value is FieldValues {
  return typeof value === 'object' && !Array.isArray(value);
}

function isWords(value: FieldValue): value is readonly string[] {
  return Array.isArray(value) && value.some(item => typeof item === 'string');
}

function isGroups(value: FieldValue): value is readonly FieldValues[] {
  return Array.isArray(value) && value.some(item => typeof item === 'object');
}

function listed(values: readonly number[], unit: string, display: string): string {
  return values.map(value => formatNumber(toDisplay(value, unit, display))).join(', ');
}
