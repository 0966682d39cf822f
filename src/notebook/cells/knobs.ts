/** `yaml knobs`: inputs that a reader of the report may turn. */
import type { Field, Fields, NumberField } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { RUN_KINDS, runKindOf } from '../../runs/kinds.ts';
import { formatNumber, toDisplay, unitLabel } from '../../units.ts';
import { plainDifference, plainQuantity } from './plain-quantity.ts';
import { nearest } from '../../units/nearest.ts';
import type { World } from '../context.ts';
import type { ChoiceKnob, Knob, NumberKnob } from '../document/knob.ts';
import { entryOf, type LocatedMap, type LocatedNode } from '../document/located.ts';
import { headOf } from '../document/names.ts';
import { nodeAt } from '../document/written-setting.ts';
import { writtenKey } from '../fields/read.ts';
import { fieldAt } from '../../model/fields/at.ts';
import { carCellFields } from './car-weights.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import { type CellKind } from './kind.ts';
import { type CellYield, NOTHING } from './yield.ts';
import { rangeOf, usualEnds } from './knob-range.ts';

const knobFields = {
  path: {
    kind: 'text',
    doc: 'a path with the name of its car or run in front, such as coupe.drive.ratio, coupe.tyres, dash.temperature',
    required: true,
  },
  label: { kind: 'text', doc: 'what the reader sees; left out: the words of the path' },
  from: {
    kind: 'text',
    doc: 'the least value, with its unit; left out: what cars that go into workshops have, as far as it is known',
  },
  to: { kind: 'text', doc: 'the greatest value' },
  step: { kind: 'text', doc: 'from one setting to the next; left out: about forty of them' },
  choices: { kind: 'words', doc: 'for a part or a word: those that may stand there' },
} as const satisfies Fields;

const fields = {
  over: { kind: 'groups', fields: knobFields, doc: 'the inputs, twelve at most', required: true },
} as const satisfies Fields;

type Row = SpecOf<typeof knobFields>;

/** More of them are no control but a form. */
const MOST = 12;

export const knobs: CellKind = {
  kind: 'knobs',
  language: 'yaml',
  named: false,
  doc: 'controls in the report: whoever reads it turns these inputs, and all that depends on them is worked out again there and then',
  fields,
  notes: [
    'a report with knobs carries axlewatt itself, about a megabyte; without a script it shows the values as they are',
    'a setting stands for the line that the notebook would say: another number of cells brings no mass along',
    'a part is changed by its name: what is written beside its `from` stays',
  ],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: [...fieldNeeds(map, fields), ...headsOf(map)],
      run(world) {
        const { name } = cell.piece;
        const { over = [] }: SpecOf<typeof fields> = readFieldsOf(map, fields, world, name).values;
        return withSpec(map, name, (): CellYield => {
          if (over.length === 0 || over.length > MOST)
            throw new SpecError(`${name}.over`, `has ${over.length} entries`, `1 to ${MOST}`);
          const found = over.map((row, k) => knobOf(`${name}.over[${k + 1}]`, row, world));
          const twice = found.findIndex(({ path }, k) => found.findIndex(other => other.path === path) < k);
          if (twice >= 0)
            throw new SpecError(`${name}.over[${twice + 1}].path`, 'stands there twice', 'each input once');
          return { ...NOTHING, knobs: found };
        });
      },
    };
  },
};

/** Cells that the paths name, before they are read. */
function headsOf(map: LocatedMap): readonly string[] {
  const rows = entryOf(map, 'over')?.value;
  if (rows?.kind !== 'list') return [];
  return rows.items.flatMap(row => {
    const path = row.kind === 'map' ? entryOf(row, 'path')?.value : undefined;
    return path?.kind === 'scalar' ? [headOf(path.text)] : [];
  });
}

/** @param at path of the row. @throws SpecError */
function knobOf(at: string, row: Row, world: World): Knob {
  const written = row.path ?? '';
  const [head = '', ...rest] = written.split('.');
  const { fields: known, inputs, map } = cellAt(`${at}.path`, head, world);
  const field = fieldAt(known, rest);
  if (field === null) {
    const all = pathsOf(known);
    const close = nearest(rest.join('.'), all);
    throw new SpecError(
      `${at}.path`,
      `"${written}" is no input of ${head}`,
      `a path such as ${head}.${close || (all[0] ?? '')}`,
    );
  }
  const told = { path: written, label: row.label ?? labelOf(head, rest) };
  const input = inputs.find(({ path }) => path === written);
  if (row.choices === undefined && field.kind === 'number') return { ...told, ...turned(at, row, field, input, world) };
  return { ...told, ...chosen(at, row, field, { node: nodeAt(map, rest), input }, world) };
}

interface KnownCell {
  readonly fields: Fields;
  readonly inputs: readonly Input[];
  /** Of a car, with that of its base. */
  readonly map: LocatedMap | null;
}

/** What may be turned of a cell. @throws SpecError */
function cellAt(at: string, head: string, world: World): KnownCell {
  const given = world.given(head);
  const product = given?.product;
  const inputs = given?.inputs ?? [];
  if (product?.kind === 'car') return { fields: carCellFields, inputs, map: product.map };
  if (product?.kind === 'result' && product.question !== undefined) {
    return { fields: runKindOf(product.question.run.kind).fields, inputs, map: null };
  }
  const cells = world.reading('').cells(['car', ...RUN_KINDS.map(({ kind }) => kind)]);
  const expected = 'the name of a car or a run in front: coupe.drive.ratio';
  throw new SpecError(at, `"${head}" is no car and no run`, expected, nearest(head, cells));
}

/** @throws SpecError */
function turned(at: string, row: Row, field: NumberField, input: Input | undefined, world: World): NumberKnob {
  if (typeof input?.value !== 'number') {
    throw new SpecError(`${at}.path`, 'has no value in this notebook', 'an input with a value, written in its cell');
  }
  const display = input.display === '' ? field.display[world.system] : input.display;
  const shown = (value: number): number => toDisplay(value, field.unit, display);
  const said = (key: 'from' | 'to'): number | null => {
    const text = row[key];
    return text === undefined ? null : shown(plainQuantity(`${at}.${key}`, text, field.unit));
  };
  const step = row.step === undefined ? null : shown(plainDifference(`${at}.step`, row.step, field.unit)) - shown(0);
  const own = shown(input.value);
  const unit = unitLabel(display);
  const withUnit = (value: number): string => `${formatNumber(value, 5)}${unit === '' ? '' : ` ${unit}`}`;
  const range = rangeOf(
    at,
    { own, from: said('from'), to: said('to'), step, shown: withUnit },
    usualEnds(input, field, shown),
  );
  return { kind: 'number', own, unit, ...range };
}

/** @param node what stands at the path, if anything does. @throws SpecError */
function chosen(
  at: string,
  row: Row,
  field: Field,
  { node, input }: { readonly node: LocatedNode | null; readonly input: Input | undefined },
  world: World,
): ChoiceKnob {
  const known = wordsFor(field, world);
  if (known === null)
    throw new SpecError(`${at}.path`, 'is nothing that a reader could choose', 'a number, a part or a word');
  const choices = row.choices ?? (field.kind === 'choice' ? known : []);
  if (choices.length < 1) throw new SpecError(at, 'has no choices', `choices: ${known.slice(0, 3).join(', ')}`);
  const strange = choices.find(word => !known.includes(word));
  if (strange !== undefined) {
    const expected = `among ${known.join(', ')}`;
    throw new SpecError(`${at}.choices`, `"${strange}" can not stand there`, expected, nearest(strange, known));
  }
  const own = ownWord(node) ?? (typeof input?.value === 'string' ? input.value : null);
  if (own === null) {
    throw new SpecError(`${at}.path`, 'is not named in this notebook', cureOf(row.path ?? '', choices, node));
  }
  return { kind: 'choice', own, choices: [...new Set([own, ...choices])] };
}

/** What to write in the cell, so that there is a name that may be turned: `tyres: { from: tyre_touring, size: ... }`. */
function cureOf(path: string, choices: readonly string[], node: LocatedNode | null): string {
  const [head = '', ...rest] = path.split('.');
  const [first = ''] = choices;
  const key = rest.at(-1) ?? '';
  const beside = node?.kind === 'map' ? node.entries.map(entry => `, ${entry.key.text}: ...`).join('') : '';
  const value = beside === '' ? first : `{ from: ${first}${beside} }`;
  return `a part or a word that its cell names: ${key}: ${value} in ${head}`;
}

/** Words and names that may stand in a field; null for one that takes neither. */
function wordsFor(field: Field, world: World): readonly string[] | null {
  if (field.kind === 'choice') return field.choices;
  if (field.kind === 'group' && field.part !== '') return world.reading('').parts(field.part);
  return null;
}

/** The word or the name of the part that a cell says. */
function ownWord(node: LocatedNode | null): string | null {
  const said = node?.kind === 'map' ? entryOf(node, 'from')?.value : node;
  return said?.kind === 'scalar' ? said.text : null;
}

/** `coupe: tyres, dry peak`. */
function labelOf(head: string, rest: readonly string[]): string {
  return `${head.replaceAll('_', ' ')}: ${rest.map(word => word.replaceAll('_', ' ')).join(', ')}`;
}

/** Paths of what may be turned, for one that was misspelled. */
function pathsOf(fields: Fields, start = ''): readonly string[] {
  return Object.entries(fields).flatMap(([key, field]) => {
    const path = start + writtenKey(key);
    if (field.kind === 'number' || field.kind === 'choice') return [path];
    if (field.kind !== 'group') return [];
    return [...(field.part === '' ? [] : [path]), ...pathsOf(field.fields, `${path}.`)];
  });
}
