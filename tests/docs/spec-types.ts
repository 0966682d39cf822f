/**
 * src/model/specs/: what a program says about a car, as types: what must be there is required, and each field shows its unit, limits,
 * default and source to whoever points at it. Written from the tables of fields.
 */
import { itemFields, tyreMarkFields, weighFields } from '../../src/model/body/ledger-fields.ts';
import { roadLoadFields } from '../../src/model/body/road-load-fields.ts';
import { trailerFields } from '../../src/model/body/trailer-fields.ts';
import { auxiliariesFields, cabinFields } from '../../src/model/cabin/fields.ts';
import { driveFields, gearboxFields, regenerationFields, unitFields } from '../../src/model/drive/fields.ts';
import type { ChoiceField, Field, Fields, NumberField } from '../../src/model/fields/field.ts';
import { cellFields, chargerFields, packFields } from '../../src/model/pack/fields.ts';
import { shippedParts } from '../../src/model/parts/shipped.ts';
import { carFields } from '../../src/model/spec.ts';
import { surroundingsFields } from '../../src/model/surroundings-fields.ts';
import { tyreFields } from '../../src/model/tyre/fields.ts';

interface Described {
  readonly fields: Fields;
  readonly doc: string;
}

/** One file each, by the name of its type. */
const TYPES: ReadonlyMap<string, Described> = new Map([
  ['AuxiliariesSpec', { fields: auxiliariesFields, doc: 'What the 12 V side takes.' }],
  ['CabinSpec', { fields: cabinFields, doc: 'Heating and cooling.' }],
  ['CarSpec', { fields: carFields, doc: 'A car.' }],
  ['CellSpec', { fields: cellFields, doc: 'One battery cell at 25 °C, new.' }],
  ['ChargerSpec', { fields: chargerFields, doc: 'On board, from the wall to the pack.' }],
  ['DriveSpec', { fields: driveFields, doc: 'From the motor to one driven axle, or to both.' }],
  ['GearboxSpec', { fields: gearboxFields, doc: 'A gearbox that was kept.' }],
  ['ItemSpec', { fields: itemFields, doc: 'A thing that comes out of a car or goes in.' }],
  ['PackSpec', { fields: packFields, doc: 'The traction battery.' }],
  ['RegenerationSpec', { fields: regenerationFields, doc: 'What a drive takes back when the car slows down.' }],
  ['RoadLoadSpec', { fields: roadLoadFields, doc: 'A road load from a coast-down.' }],
  ['SurroundingsSpec', { fields: surroundingsFields, doc: 'Where and when.' }],
  ['TrailerSpec', { fields: trailerFields, doc: 'A trailer.' }],
  ['TyreMarkSpec', { fields: tyreMarkFields, doc: 'What is marked on a tyre.' }],
  ['TyreSpec', { fields: tyreFields, doc: 'A tyre, for both wheels of an axle.' }],
  ['UnitSpec', { fields: unitFields, doc: 'Motor and inverter.' }],
  ['WeighSpec', { fields: weighFields, doc: 'A car on the scales, and what is changed about it.' }],
]);

/** A set of tyres for both axles, or one for each: said by a union, since no field by itself is required. */
const EITHER: ReadonlyMap<string, string> = new Map([['CarSpec', 'TyreSpec']]);
const SETS = ['tyres', 'frontTyres', 'rearTyres'] as const;

/** Path below the root of the project, and text. */
export function specTypes(): readonly (readonly [string, string])[] {
  return [...TYPES].map(([name, described]) => [`src/model/specs/${fileOf(name)}`, file(name, described)]);
}

function fileOf(name: string): string {
  return `${name
    .replace(/Spec$/u, '')
    .replaceAll(/(?<=.)[A-Z]/gu, letter => `-${letter}`)
    .toLowerCase()}.ts`;
}

function file(name: string, { fields, doc }: Described): string {
  const used = new Set<string>();
  const either = EITHER.get(name);
  const own = Object.entries(fields).filter(([key]) => either === undefined || !SETS.some(set => set === key));
  const lines = linesOf(Object.fromEntries(own), used, '  ');
  const head = '/** Written by `npm run defaults` from the tables of fields: do not edit. */\n';
  // Types and not interfaces: those of parts that ship must pass where any group of fields may stand.
  const body = `${either === undefined ? `export type ${name}` : 'type Said'} = {\n${lines}};\n`;
  const union = either === undefined ? '' : sets(name, doc, fields, used);
  const comment = `/** ${doc} SI units throughout. */\n`;
  const imports = [...used]
    .filter(each => each !== name)
    .toSorted()
    .map(each => `import type { ${each} } from './${fileOf(each)}';\n`);
  return `${head}${imports.join('')}\n${either === undefined ? comment : ''}${body}${union}`;
}

function sets(name: string, doc: string, fields: Fields, used: Set<string>): string {
  const line = (key: string, mark: string): string => linesOf({ [key]: fields[key] as Field }, used, '  ', mark);
  const one = `${line('tyres', '')}${line('frontTyres', '?')}${line('rearTyres', '?')}`;
  const two = `${line('tyres', '?')}${line('frontTyres', '')}${line('rearTyres', '')}`;
  return `
type OneSet = {\n${one}};

type TwoSets = {\n${two}};

/** ${doc} SI units throughout; \`tyres\`, or \`frontTyres\` and \`rearTyres\`. */
export type ${name} = Said & (OneSet | TwoSets);
`;
}

/** @param mark behind the name; left out, a question mark where the field is not required. */
function linesOf(fields: Fields, used: Set<string>, indent: string, mark?: string): string {
  return Object.entries(fields)
    .map(([key, field]) => {
      const optional = mark ?? (field.required === true ? '' : '?');
      const line = `${indent}readonly ${key}${optional}: ${typeOf(field, used, indent)};`;
      return `${indent}/** ${commentOf(field)} */\n${line.length > WIDTH && !line.includes('\n') ? folded(line, indent) : line}\n`;
    })
    .join('');
}

/** Columns of a line, as the formatter has it. */
const WIDTH = 120;

/** A union too long for its line, as the formatter folds it. */
function folded(line: string, indent: string): string {
  const [head = '', union = ''] = line.split(/: (?=\S+ \|)/u);
  return `${head}:\n${indent}  | ${union.replaceAll(' | ', `\n${indent}  | `)}`;
}

function typeOf(field: Field, used: Set<string>, indent: string): string {
  switch (field.kind) {
    case 'number':
      return 'number';
    case 'choice':
      return field.choices.map(each => `'${each}'`).join(' | ');
    case 'text':
    case 'reference':
      return 'string';
    case 'numbers':
      return 'readonly number[]';
    case 'words':
      return 'readonly string[]';
    case 'group':
      return [groupOf(field.fields, used, indent), ...namesOf(field.part)].join(' | ');
    default:
      return `readonly ${groupOf(field.fields, used, indent)}[]`;
  }
}

/** Parts that ship may stand there by name. */
function namesOf(kind: string): readonly string[] {
  return shippedParts()
    .filter(part => part.kind === kind)
    .map(({ name }) => `'${name}'`);
}

function groupOf(fields: Fields, used: Set<string>, indent: string): string {
  const known = [...TYPES].find(([, each]) => each.fields === fields)?.[0];
  if (known === undefined) return `{\n${linesOf(fields, used, `${indent}  `)}${indent}}`;
  used.add(known);
  return known;
}

function commentOf(field: Field): string {
  const parts = [sentence(field.doc)];
  if (field.kind === 'number' || field.kind === 'numbers') parts.push(unitOf(field));
  if (field.kind === 'number') parts.push(defaultOf(field));
  if (field.kind === 'choice' && field.default !== undefined) parts.push(choiceDefault(field.default));
  return parts
    .filter(part => part !== '')
    .join(' ')
    .replaceAll('*/', '* /');
}

function sentence(text: string): string {
  const whole = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.?!]$/u.test(whole) ? whole : `${whole}.`;
}

function unitOf({ unit, min, max }: { readonly unit: string; readonly min: number; readonly max: number }): string {
  return `${unit === '1' ? 'A pure number' : `In ${unit}`}, ${plain(min)} to ${plain(max)}.`;
}

/** Seven digits tell a limit from its neighbours. */
function plain(value: number): string {
  return String(Number(value.toPrecision(7)));
}

function defaultOf({ default: fallback, derived, computed, required }: NumberField): string {
  if (required === true) return '';
  if (fallback !== undefined) {
    const { value, source, spread } = fallback;
    const range = spread?.kind === 'rectangular' ? ` (${plain(spread.low)} to ${plain(spread.high)})` : '';
    return `Default ${plain(value)}${range}: ${source}.`;
  }
  return derived === undefined ? '' : `${computed === true ? 'Left out, it is' : 'Default by rule:'} ${derived}.`;
}

function choiceDefault({ value, source }: NonNullable<ChoiceField['default']>): string {
  return `Default ${value}: ${source}.`;
}
