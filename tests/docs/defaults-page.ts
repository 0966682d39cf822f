/** docs/DEFAULTS.md: every default of every field, printed from the tables that read them. Depends on no machine and no clock. */
import type { Field, Fields, NumberField } from '../../src/model/fields/field.ts';
import { notebookKey } from '../../src/model/fields/filler.ts';
import type { Spread } from '../../src/model/fields/input.ts';
import { shippedParts } from '../../src/model/parts/shipped.ts';
import type { ShippedPart } from '../../src/model/parts/part.ts';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { partFields } from '../../src/notebook/cells/part.ts';
import { formatQuantity } from '../../src/units.ts';

const HEAD = `# Defaults

Written by \`npm run defaults\` from the tables of fields: do not edit. A field that a notebook leaves out has the default below; the
report lists what was taken. Two numbers with “..” are the limits of a rectangular spread (JCGM 101), half of it on either side of the value, from which studies and
intervals draw. “From memory” and “common practice, no source” mean what they say: measure what matters.
`;

/** The page. */
export function defaultsPage(): string {
  const sections = [...sectionsOfParts(), ...sectionsOfCells(), ...sectionsOfShipped()];
  return [HEAD, statedSection(), ...sections].join('\n');
}

interface Row {
  readonly path: string;
  readonly field: Field;
}

/** Fields below a path; a group that may be a part of its own has a section of its own. */
function rowsOf(fields: Fields, above = ''): Row[] {
  return Object.entries(fields).flatMap(([key, field]): Row[] => {
    const path = above === '' ? notebookKey(key) : `${above}.${notebookKey(key)}`;
    if (field.kind === 'group') return field.part === '' ? rowsOf(field.fields, path) : [];
    if (field.kind === 'groups') return rowsOf(field.fields, `${path}[]`);
    return [{ path, field }];
  });
}

function sectionsOfParts(): string[] {
  return [...partFields].map(([kind, fields]) => section(`A ${kind}`, rowsOf(fields)));
}

function sectionsOfCells(): string[] {
  return CELL_KINDS.flatMap(({ kind, doc, fields }) => {
    const rows = rowsOf(fields).filter(({ field }) => defaultOf(field) !== null);
    return rows.length === 0 ? [] : [section(`\`${kind}\`: ${doc}`, rows)];
  });
}

function section(title: string, rows: readonly Row[]): string {
  const lines = rows.flatMap(({ path, field }) => {
    const known = defaultOf(field);
    return known === null ? [] : [`| \`${path}\` | ${known.map(cellText).join(' | ')} |`];
  });
  return `## ${title}\n\n| field | default | spread | source |\n| --- | --- | --- | --- |\n${lines.join('\n')}\n`;
}

type Known = readonly [value: string, spread: string, source: string];

function defaultOf(field: Field): Known | null {
  if (field.kind === 'choice')
    return field.default === undefined ? null : [field.default.value, '', field.default.source];
  if (field.kind !== 'number') return null;
  const { default: fallback, derived, computed } = field;
  if (fallback !== undefined)
    return [quantity(fallback.value, field), spreadText(fallback.spread, field), fallback.source];
  if (derived === undefined) return null;
  return [computed === true ? 'computed' : 'by rule', '', derived];
}

function quantity(value: number, { unit, display }: NumberField): string {
  return formatQuantity(value, unit, display.metric, { digits: 5 });
}

function spreadText(spread: Spread | undefined, field: NumberField): string {
  if (spread === undefined) return '';
  if (spread.kind === 'normal') return `± ${quantity(spread.standard, field)}`;
  return `${quantity(spread.low, field)} .. ${quantity(spread.high, field)}`;
}

/** A bar would end the cell of a table. */
function cellText(text: string): string {
  return text.replaceAll('|', '\\|');
}

/** Fields whose values have a spread although none is written, and words that stand for values. */
function statedSection(): string {
  const rows = [...partFields].flatMap(([kind, fields]) => rowsOf(fields, kind));
  const stated = rows.flatMap(({ path, field }) => {
    if (field.kind !== 'number' || field.stated === undefined) return [];
    return [
      `| \`${path}\` | ± ${Number((100 * field.stated.share).toPrecision(3))} %, rectangular | ${field.stated.source} |`,
    ];
  });
  const words = rows.flatMap(({ path, field }) => {
    if (field.kind !== 'number' || field.words === undefined) return [];
    return Object.entries(field.words).map(
      ([word, { value, spread, source }]) =>
        `| \`${path}: ${word}\` | ${quantity(value, field)} | ${spreadText(spread, field)} | ${source} |`,
    );
  });
  return `## Given, spread assumed

Makers' figures are not exact. Where one of these is written without a spread it gets this one; \`± 0\` behind it takes it away.

| field | spread | source |
| --- | --- | --- |
${stated.join('\n')}

Words that stand for a value:

| word | value | spread | source |
| --- | --- | --- | --- |
${words.join('\n')}
`;
}

function sectionsOfShipped(): string[] {
  return shippedParts().map(part => {
    const fields = partFields.get(part.kind) ?? {};
    const lines = numbersOf(part).flatMap(([key, value, spread]) => {
      const field = fields[key];
      if (field?.kind !== 'number') return [];
      return [`| \`${notebookKey(key)}\` | ${quantity(value, field)} | ${spreadText(spread, field)} |`];
    });
    const head = `## \`${part.name}\`: ${part.title}\n\nSource: ${part.source}.\n`;
    return `${head}\n| field | value | spread |\n| --- | --- | --- |\n${lines.join('\n')}\n`;
  });
}

function numbersOf({
  values,
  spreads,
}: ShippedPart): (readonly [key: string, value: number, spread: Spread | undefined])[] {
  const known: { readonly [key: string]: Spread | undefined } = spreads;
  return Object.entries(values).flatMap(([key, value]) =>
    typeof value === 'number' ? [[key, value, known[key]] as const] : [],
  );
}
