/** What cells take, as text for a terminal: printed from the tables that read them. */
import type { Field, Fields, NumberField } from '../../model/fields/field.ts';
import type { Spread } from '../../model/fields/input.ts';
import type { ShippedPart } from '../../model/parts/part.ts';
import { shippedParts } from '../../model/parts/shipped.ts';
import { formatNumber, formatQuantity, toDisplay, unitLabel } from '../../units.ts';
import { partFields } from '../cells/part.ts';
import { CELL_KINDS } from '../cells/registry.ts';
import { nearest } from '../../units/nearest.ts';
import { writtenKey } from './read.ts';
import { wrap } from './wrap.ts';

/** A path that leads to no cell and no group. */
export class UnknownPath extends Error {
  constructor(word: string, known: readonly string[]) {
    const close = nearest(word, known);
    super(`there is no "${word}"; known: ${known.join(', ')}${close === '' ? '' : `; did you mean "${close}"?`}`);
    this.name = 'UnknownPath';
  }
}

/** All kinds of cell, one a line. */
export function kindsReference(): string {
  const width = Math.max(...CELL_KINDS.map(({ kind }) => kind.length));
  return [
    ...CELL_KINDS.map(({ kind, doc }) => `${kind.padEnd(width)}  ${doc}`),
    '',
    `Ask for one with \`axlewatt cells KIND\`, for a group in it with \`axlewatt cells car.drive\`,`,
    `for a kind of part with \`axlewatt cells part.${[...partFields.keys()][0] ?? ''}\`, for the numbers of one that ships by its name.`,
    'What a run answers with: `axlewatt cells launch --outputs`; what ships: `axlewatt cells parts`, `axlewatt cells schedules`;',
    'for an editor that checks YAML: `axlewatt cells --schema`, or of one kind: `axlewatt cells car --schema`.',
  ].join('\n');
}

/**
 * One kind of cell, or a group in it: `car`, `car.drive.unit`, `part.tyre`, every field with unit, default and source; or a part that
 * ships, by its name, with its numbers.
 * @param width of the terminal in characters.
 * @throws UnknownPath
 */
export function pathReference(path: string, width: number): string {
  const shipped = shippedParts().find(({ name }) => name === path);
  if (shipped !== undefined) return partReference(shipped, width);
  const [named = '', ...rest] = path.split('.');
  const isKind = CELL_KINDS.some(({ kind }) => kind === named);
  // `tyre` alone is the kind of part.
  const [head, keys] = !isKind && partFields.has(named) ? ['part', [named, ...rest]] : [named, rest];
  const kind = CELL_KINDS.find(({ kind }) => kind === head);
  if (kind === undefined)
    throw new UnknownPath(
      head,
      CELL_KINDS.map(({ kind }) => kind),
    );
  const { fields, doc, part } = descend(kind.fields, kind.doc, head === 'part', keys);
  const notes = keys.length === 0 ? (kind.notes ?? []) : [];
  const first = kind.language === 'calc' ? '```calc NAME' : `\`\`\`yaml ${kind.kind}${kind.named ? ' NAME' : ''}`;
  return [
    keys.length === 0 ? `${first}: ${doc}` : `${path}: ${doc}`,
    ...Object.entries(fields).map(([key, field]) => fieldReference(path, key, field, width)),
    ...notes.map(note => wrap(note, width, 2)),
    ...shippedReference(part, width),
  ].join('\n');
}

interface Group {
  readonly fields: Fields;
  readonly doc: string;
  /** Kind of part that may stand for it. */
  readonly part: string;
}

function descend(fields: Fields, doc: string, isPart: boolean, keys: readonly string[]): Group {
  let here: Group = { fields, doc, part: '' };
  for (const [depth, key] of keys.entries()) {
    const groups = isPart && depth === 0 ? partGroups() : groupsOf(here.fields);
    const next = groups.get(key);
    if (next === undefined) throw new UnknownPath(key, [...groups.keys()]);
    here = next;
  }
  return here;
}

function partGroups(): Map<string, Group> {
  return new Map([...partFields].map(([kind, fields]) => [kind, { fields, doc: `a ${kind} as a part`, part: kind }]));
}

function groupsOf(fields: Fields): Map<string, Group> {
  const found = new Map<string, Group>();
  for (const [key, field] of Object.entries(fields)) {
    if (field.kind === 'group') found.set(writtenKey(key), field);
    if (field.kind === 'groups') found.set(writtenKey(key), { ...field, part: '' });
  }
  return found;
}

function fieldReference(path: string, key: string, field: Field, width: number): string {
  const head = `  ${writtenKey(key)}`.padEnd(24);
  const lines = [field.doc, ...explained(path, key, field)];
  const text = [`${head} ${whatItTakes(field)}`.padEnd(46), defaultOf(field)].join(' ').trimEnd();
  return [text, ...lines.map(line => wrap(line, width, 6))].join('\n');
}

function whatItTakes(field: Field): string {
  if (field.kind === 'number') return units(field) || 'number';
  if (field.kind === 'numbers') return `list, ${unitLabel(field.display?.metric ?? field.unit) || 'numbers'}`;
  if (field.kind === 'choice') return field.choices.join(' | ');
  if (field.kind === 'reference') return `name of a ${field.to.join(' or ')} cell`;
  if (field.kind === 'group') return field.part === '' ? 'fields' : `fields, or the name of a ${field.part}`;
  if (field.kind === 'groups') return 'list of groups';
  if (field.kind === 'words') return field.to === undefined ? 'list of words' : `names of ${field.to.join(', ')} cells`;
  return 'text';
}

function units({ display }: NumberField): string {
  const [metric, imperial] = [unitLabel(display.metric), unitLabel(display.imperial)];
  return metric === imperial ? metric : `${metric} or ${imperial}`;
}

function defaultOf(field: Field): string {
  if (field.required === true) return 'required';
  if (field.kind === 'number' && field.default !== undefined) {
    const { value, spread } = field.default;
    return `= ${formatQuantity(value, field.unit, field.display.metric, { spread })}`;
  }
  if (field.kind === 'choice' && field.default !== undefined) return `= ${field.default.value}`;
  return '';
}

/** What is to be known of a field. */
function explained(path: string, key: string, field: Field): string[] {
  return [...withoutValue(path, key, field), ...(field.kind === 'number' ? asWritten(field) : [])];
}

/** What a value means beside itself: its spread where none is written, and words in its place. */
function asWritten({ stated, words = {} }: NumberField): string[] {
  const spread = stated === undefined ? [] : [`without ±: ± ${100 * stated.share} %, rectangular: ${stated.source}`];
  return [
    ...spread,
    ...Object.entries(words).map(([word, { source }]) => `${word}: ${source.replace(`${word}: `, '')}`),
  ];
}

/** Where a default comes from, and where a group is described. */
function withoutValue(path: string, key: string, field: Field): string[] {
  if (field.kind === 'number' && field.derived !== undefined) return [`left out: ${field.derived}`];
  if ((field.kind === 'number' || field.kind === 'choice') && field.default !== undefined) {
    return [`left out: ${field.default.source}`];
  }
  const below = field.kind === 'group' || field.kind === 'groups';
  return below ? [`see axlewatt cells ${path}.${writtenKey(key)}`] : [];
}

function shippedReference(part: string, width: number): string[] {
  const shipped = shippedParts().filter(({ kind }) => kind === part);
  if (shipped.length === 0) return [];
  return [
    `\nParts of this kind that ship with axlewatt, to be given by name:`,
    ...shipped.flatMap(({ name, title, source }) => [`  ${name}: ${title}`, wrap(source, width, 6)]),
    `\nTheir numbers: \`axlewatt cells ${shipped[0]?.name ?? ''}\`.`,
  ];
}

/** A part that ships: every number of it with its spread, and the source of all. */
function partReference({ kind, name, title, values, spreads, source }: ShippedPart, width: number): string {
  const spreadOf: { readonly [key: string]: Spread | undefined } = spreads;
  return [
    `${name}, a ${kind}: ${title}`,
    ...numbersOf(values, partFields.get(kind) ?? {}, spreadOf, ''),
    wrap(`Source: ${source}`, width, 2),
    `What is left out is assumed as in \`axlewatt cells part.${kind}\`.`,
  ].join('\n');
}

function numbersOf(
  values: object,
  fields: Fields,
  spreads: { readonly [key: string]: Spread | undefined },
  path: string,
): string[] {
  return Object.entries(values).flatMap(([key, value]: [string, unknown]): string[] => {
    const field = fields[key];
    const name = `${path}${writtenKey(key)}`;
    if (field?.kind === 'group' && typeof value === 'object' && value !== null) {
      return numbersOf(value, field.fields, {}, `${name}.`);
    }
    return [`  ${name.padEnd(24)} ${shownValue(value, field, spreads[key])}`];
  });
}

function shownValue(value: unknown, field: Field | undefined, spread: Spread | undefined): string {
  if (field?.kind === 'number' && typeof value === 'number') {
    const shown = formatQuantity(value, field.unit, field.display.metric);
    const within = spread === undefined ? '' : formatQuantity(value, field.unit, field.display.metric, { spread });
    return spread?.kind === 'rectangular' ? `${shown} (${within})` : within || shown;
  }
  if (field?.kind === 'numbers' && Array.isArray(value)) {
    const display = field.display?.metric ?? field.unit;
    const each = value.map((one: number) => formatNumber(toDisplay(one, field.unit, display)));
    return `${each.join(', ')} ${unitLabel(display)}`.trimEnd();
  }
  return String(value);
}
