/** Reads the mapping of a cell by a table of fields: one pass, all problems, nothing assumed. */
import type { Field, Fields, GroupField, GroupsField } from '../../model/fields/field.ts';
import type { LocatedEntry, LocatedMap, LocatedNode, Place } from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import { keyMeant } from '../../model/fields/synonyms.ts';
import { describeField } from './describe.ts';
import { elsewhere } from './elsewhere.ts';
import { type Draft, plain, Rows } from './draft.ts';
import { Findings } from './findings.ts';
import { meantGroup } from './meant-group.ts';
import {
  type FieldValue,
  type FieldValues,
  keyOf,
  type Part,
  type ReadContext,
  type ReadResult,
} from './read-context.ts';
import { writtenKey } from './read-context.ts';
import { readSingle } from './read-single.ts';
import { fieldMeant, groupOfList, listTold, keyTold, partMeant, rowMeant, switchMeant, wallMeant } from './slips.ts';

export { fieldNames } from './field-names.ts';
export {
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
  const reading = new Reading(context, fields);
  const draft: Draft = new Map();
  reading.readMap(draft, map, fields, { path: context.path, part, chain: [] });
  reading.requireAll(draft, fields, context.path, map);
  return { values: plain(draft), inputs: [...reading.found.inputs.values()], problems: reading.found.problems() };
}

/** Keys beyond which a list of them would hide the one that was meant. */
const LONGEST_LIST = 12;

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
  readonly found: Findings;
  /** Places of the groups, for what they lack. */
  readonly #groups = new Map<string, Place>();
  /** Names of parts that a base gives, and of which a group of this cell takes the place as a whole. */
  readonly #replaced = new Map<string, string>();
  /** Of the whole cell. */
  readonly #root: Fields;

  constructor(context: ReadContext, root: Fields) {
    this.found = new Findings(context);
    this.#root = root;
  }

  readMap(draft: Draft, map: LocatedMap, fields: Fields, spot: Spot): void {
    const from = map.entries.find(({ key }) => key.text === 'from' && spot.part !== '');
    if (from !== undefined) this.#readFrom(draft, from.value, fields, spot);
    for (const [i, entry] of map.entries.entries()) {
      if (entry === from) continue;
      const key = keyOf(fields, entry.key.text);
      const field = key === undefined ? undefined : fields[key];
      if (key === undefined || field === undefined) this.#unknownKey(entry, map.entries[i - 1], fields, spot);
      else this.#readField(draft, key, entry, field, { ...spot, path: `${spot.path}.${writtenKey(key)}` });
    }
  }

  /** Complains of required fields that neither the cell nor a part gave. */
  requireAll(draft: Draft, fields: Fields, path: string, place: Place): void {
    if (this.found.isBlamed(path)) return;
    for (const [key, field] of Object.entries(fields)) {
      const below = `${path}.${writtenKey(key)}`;
      const value = draft.get(key);
      if (value === undefined && field.required === true && !this.found.isBlamed(below)) {
        const [only, ...more] = field.kind === 'reference' ? this.found.context.cells(field.to) : [];
        const part = this.#replaced.get(path);
        const base = part === undefined ? '' : `from: ${part}`;
        const cure = only === undefined || more.length > 0 ? base : `${writtenKey(key)}: ${only}`;
        this.found.fail(place, below, 'is missing', describeField(field), cure);
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

  #unknownKey(
    { key, value }: LocatedEntry,
    before: LocatedEntry | undefined,
    fields: Fields,
    { path, part }: Spot,
  ): void {
    if (!this.found.tellsUnknown(key)) return;
    const known = [...Object.keys(fields).map(writtenKey), ...(part === '' ? [] : ['from'])];
    const number = before?.value.kind === 'scalar' && /^[+-]?\d+$/u.test(before.value.text) ? before.value : undefined;
    // `{pressure: 2,4 bar}`, without a blank.
    const touches = number !== undefined && key.column === number.column + number.length + 1;
    if (/^\d+$/u.test(key.text) || (touches && /^\d/u.test(key.text))) {
      const meant = number === undefined ? '' : `${before?.key.text ?? ''}: ${number.text}.${key.text}`;
      this.found.fail(key, path, 'a comma parts two entries here', 'a decimal point in a number', meant);
      return;
    }
    // `{16 A}`: a value without the name of its field.
    const nameless = /^[\d.+-]/u.test(key.text) ? meantGroup(key.text, { fields }) : '';
    if (nameless !== '') {
      this.found.fail(key, path, `"${key.text}" has no name`, 'name: value', nameless.slice(2, -2));
      return;
    }
    const synonym = fieldMeant(key.text, value, known) || keyMeant(key.text, known);
    const place = synonym === '' ? keyTold(key.text, value, known) || elsewhere(key.text, value, this.#root) : '';
    const meant = place === '' ? synonym || nearest(key.text, known) : '';
    const list = meant === '' || known.length <= LONGEST_LIST ? `one of ${known.join(', ')}` : '';
    const expected = place === '' ? list : place;
    this.found.fail(key, `${path}.${key.text}`, `unknown key "${key.text}"`, expected, meant);
    this.found.isMeant(`${path}.${meant}`);
  }

  #readField(draft: Draft, key: string, { key: written, value: node }: LocatedEntry, field: Field, spot: Spot): void {
    if (node.kind === 'scalar' && node.value === null) {
      this.found.fail(written, spot.path, 'has no value', describeField(field));
    } else if (field.kind === 'group') {
      this.#groups.set(spot.path, written);
      if (node.kind === 'map' && node.over !== undefined && field.part !== '') this.#replaced.set(spot.path, node.over);
      this.#readGroup(draft, key, node, field, spot);
    } else if (field.kind === 'groups') {
      this.#readGroups(draft, key, node, field, spot.path);
    } else {
      readSingle(this.found, draft, key, node, field, spot.path);
    }
  }

  #readGroup(draft: Draft, key: string, node: LocatedNode, field: GroupField, { path, chain }: Spot): void {
    const spot = { path, part: field.part, chain };
    if (node.kind === 'list' || (node.kind === 'scalar' && field.part === '')) {
      const cure =
        node.kind === 'scalar'
          ? switchMeant(node.text, field.fields) || wallMeant(node.text, field.fields) || meantGroup(node.text, field)
          : groupOfList(node, field.fields);
      this.found.fail(node, path, 'is not a group', listTold(key, node) || describeField(field), cure);
      return;
    }
    const before = draft.get(key);
    const named = node.kind === 'scalar' || node.entries.some(entry => entry.key.text === 'from');
    const group: Draft = !named && before instanceof Map ? before : new Map();
    if (named) this.found.forget(path);
    draft.set(key, group);
    if (node.kind === 'scalar') this.#readFrom(group, node, field.fields, spot, meantGroup(node.text, field));
    else this.readMap(group, node, field.fields, spot);
  }

  #readGroups(draft: Draft, key: string, node: LocatedNode, field: GroupsField, path: string): void {
    if (node.kind !== 'list') {
      this.found.fail(node, path, 'is not a list', describeField(field), rowMeant(node, field.fields));
      return;
    }
    if (node.items.length > MOST_ROWS) {
      this.found.fail(node, path, `has more than ${MOST_ROWS} entries`);
      return;
    }
    this.found.forget(path);
    const rows = node.items.map((item, i) => {
      const row: Draft = new Map();
      const below = rowPath(path, i);
      if (item.kind === 'map') this.readMap(row, item, field.fields, { path: below, part: '', chain: [] });
      else {
        const keys = Object.keys(field.fields).map(writtenKey).join(', ');
        this.found.fail(item, below, 'is not a group', `a group of ${keys}`);
      }
      return { draft: row, place: item };
    });
    draft.set(key, new Rows(rows));
  }

  /** @param cure what to write in place of a name that is none. */
  #readFrom(draft: Draft, node: LocatedNode, fields: Fields, { path, part, chain }: Spot, cure = ''): void {
    const name = node.kind === 'scalar' ? node.text : '';
    const { context } = this.found;
    const found = name === '' ? undefined : context.part(part, name);
    if (found === undefined) {
      const known = context.parts(part);
      // A part whose name is misspelled may run later, for nothing else is known to need it.
      const unread = context.cells(['part']).filter(cell => cell !== name);
      const slip = partMeant(part, name);
      const names = known.length === 0 ? `a part cell of kind ${part}` : `one of ${known.join(', ')}`;
      const expected = slip.expected || names;
      const meant = slip.cure || cure || (slip.expected === '' ? nearest(name, [...known, ...unread]) : '');
      this.found.fail(node, path, `no part of kind ${part} is called "${name}"`, expected, meant);
    } else if (chain.includes(`${part} ${name}`)) {
      this.found.fail(node, path, `the part "${name}" is made from itself`);
    } else if (found.kind === 'written') {
      this.readMap(draft, found.map, fields, { path, part, chain: [...chain, `${part} ${name}`] });
    } else {
      this.#copy(draft, found, fields, path);
    }
  }

  /** Takes the values of a shipped part over: they are in SI, and checked where they are kept. */
  #copy(draft: Draft, { values, spreads, source }: ShippedValues, fields: Fields, path: string): void {
    for (const [key, value] of Object.entries(values)) {
      const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
      const below = `${path}.${writtenKey(key)}`;
      if (field === undefined) throw new Error(`a shipped part has a field "${key}" that ${path} does not have`);
      if (isGroup(value) && field.kind === 'group') {
        const group: Draft = new Map();
        draft.set(key, group);
        this.#copy(group, { values: value, spreads: {}, source }, field.fields, below);
      } else if (!isGroup(value) && !isGroups(value) && !isWords(value)) {
        this.found.keep(draft, key, field, below, { value, origin: { kind: 'assumed', source }, spread: spreads[key] });
      }
    }
  }
}

/** `coupe.out[2]` for the second group of a list: people count from one. */
function rowPath(path: string, index: number): string {
  return `${path}[${index + 1}]`;
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
