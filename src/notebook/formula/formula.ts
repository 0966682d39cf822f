/**
 * Formulas of the notebook: `= expression` in the place of a number, the lines of a `calc` cell, the conditions of a
 * `check` cell. A formula is parsed, checked against a closed list of syntax, and reckoned out by walking its tree once:
 * its cost is bounded by its length, and it can reach nothing but the numbers that `lookup` hands out.
 */
import { equalDimension } from '../../units/dimension.ts';
import { toDisplay } from '../../units/convert.ts';
import { UnitError } from '../../units/error.ts';
import { type Token, tokenise } from '../../units/token.ts';
import { dimensionName, spellings } from '../../units/trade.ts';
import { parseTree, type Span } from '../../units/tree.ts';
import { unitOf } from '../../units/unit.ts';
import { kindOf, resultUnit } from './arithmetic.ts';
import { evaluate, type FormulaValue, type Lookup, whatIs } from './evaluate.ts';

export type { FormulaValue, Lookup } from './evaluate.ts';

/** A formula that cannot be read or has no value. */
export class FormulaError extends UnitError {
  constructor(message: string, offset: number, length: number, expected = '', nearestName = '') {
    super(message, offset, length, expected, nearestName);
    this.name = 'FormulaError';
  }
}

/** A name leads to a cell that has failed: what is wrong stands there. */
export class NeedsFailed extends FormulaError {}

/**
 * The value of a formula. `names` is what could have been meant by a name that `lookup` does not know. Throws
 * FormulaError with the place in `text`.
 */
export function evaluateFormula(text: string, lookup: Lookup, names: readonly string[] = []): FormulaValue {
  return placed(() => {
    const { tokens, unit } = splitConversion(text);
    const tree = parseTree(text, tokens);
    const result = evaluate(tree, { lookup, names });
    if (typeof result !== 'object') {
      if (unit === undefined) return { value: result, unit: '' };
      throw new FormulaError(`${kindOf(result)} has no unit`, unit.offset, unit.length);
    }
    const plain: FormulaValue = {
      value: result.value,
      unit: resultUnit(result.dimension),
      ...(result.onScale === true && { onScale: true }),
    };
    if (unit === undefined) return plain;
    if (equalDimension(result.dimension, unit.dimension)) {
      if (Number.isFinite(toDisplay(result.value, plain.unit, unit.text))) return { ...plain, display: unit.text };
      throw new FormulaError(`the result is too large for ${unit.text}`, unit.offset, unit.length);
    }
    const message = `${kindOf(result)} cannot be given in ${unit.text}`;
    throw new FormulaError(message, unit.offset, unit.length, `a unit of ${dimensionName(plain.unit)}`);
  });
}

/** Names in a formula that are neither units nor functions, each once; none for a formula that cannot be read. */
export function formulaNames(text: string): readonly string[] {
  let tokens: readonly Token[];
  try {
    ({ tokens } = splitConversion(text));
  } catch (error) {
    if (error instanceof UnitError) return [];
    throw error;
  }
  const names = tokens.filter(
    (token, i) => token.kind === 'name' && tokens[i + 1]?.text !== '(' && whatIs(token.text) === '',
  );
  return [...new Set(names.map(token => token.text))];
}

interface Conversion extends Span {
  readonly text: string;
  readonly dimension: readonly number[];
}

/** Cuts `... to unit` off. Throws UnitError. */
function splitConversion(text: string): { readonly tokens: readonly Token[]; readonly unit?: Conversion } {
  const tokens = tokenise(text);
  const conversions = tokens.filter(token => token.kind === 'operator' && token.text === 'to');
  const [to, second] = conversions;
  if (to === undefined) return { tokens };
  if (second !== undefined) throw new UnitError('more than one "to"', second.offset, second.length);
  const before = tokens.slice(0, tokens.indexOf(to));
  const rest = text.slice(to.offset + to.length);
  const offset = text.length - rest.trimStart().length;
  const unit = rest.trim();
  if (unit === '') throw new UnitError('no unit after "to"', to.offset, to.length);
  const brackets = before.reduce((n, { text }) => n + (text === '(' ? 1 : text === ')' ? -1 : 0), 0);
  if (brackets !== 0) throw new UnitError('"to" stands at the end, outside of brackets', to.offset, to.length);
  const { dimension } = shifted(offset, () => unitOf(unit, spellings));
  return { tokens: before, unit: { text: unit, offset, length: unit.length, dimension } };
}

/** Moves the place of a UnitError by `by`. */
function shifted<T>(by: number, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    throw new UnitError(error.message, error.offset + by, error.length, error.expected, error.nearest);
  }
}

/** Every UnitError as a FormulaError. */
function placed<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof UnitError) || error instanceof FormulaError) throw error;
    throw new FormulaError(error.message, error.offset, error.length, error.expected, error.nearest);
  }
}

/** One line of a calc cell: `name = formula`, perhaps with `-> unit` behind it. */
export interface Assignment {
  readonly name: string;
  /** Without the comment and the unit to be shown in. */
  readonly formula: string;
  /** 0-based line in the text. */
  readonly line: number;
  /** 0-based column at which the formula starts. */
  readonly column: number;
  /** Unit to be shown in. */
  readonly unit?: string;
}

const MOST_LINES = 1000;

/**
 * The lines of a calc cell; empty lines and `# comments` are passed over. A name may not already mean a unit, a function
 * or a constant, and stands once. Throws FormulaError with the offset in the whole of `text`.
 */
export function parseAssignments(text: string): readonly Assignment[] {
  const assignments = new Map<string, Assignment>();
  let start = 0;
  for (const [line, written] of text.split('\n').entries()) {
    const code = written.replace(/#.*$/u, '').trimEnd();
    if (code.trim() !== '') {
      if (assignments.size === MOST_LINES) throw new FormulaError(`more than ${MOST_LINES} formulas`, start, 1);
      const found = assignment(code, line, start, assignments);
      assignments.set(found.name, found);
    }
    start += written.length + 1;
  }
  return [...assignments.values()];
}

function assignment(code: string, line: number, start: number, before: ReadonlyMap<string, Assignment>): Assignment {
  const indent = code.length - code.trimStart().length;
  const [head, name = ''] = /^\s*([A-Za-z]\w*)\s*=(?!=)\s*/u.exec(code) ?? [];
  if (head === undefined) {
    throw new FormulaError(
      'this is not "name = formula"',
      start + indent,
      code.length - indent,
      'a name of letters, digits and _',
    );
  }
  const meaning = whatIs(name);
  if (meaning !== '') {
    throw new FormulaError(`"${name}" is ${meaning}`, start + indent, name.length, `another name, such as "${name}_1"`);
  }
  const first = before.get(name);
  if (first !== undefined) {
    throw new FormulaError(
      `"${name}" is already set in line ${first.line + 1} of this cell`,
      start + indent,
      name.length,
    );
  }
  const body = code.slice(head.length);
  if (body === '') throw new FormulaError(`"${name}" has no formula`, start + indent, code.length - indent);
  const { formula, unit } = placed(() => shifted(start + head.length, () => splitText(body)));
  return { name, formula, line, column: head.length, ...(unit === undefined ? {} : { unit }) };
}

function splitText(body: string): { readonly formula: string; readonly unit?: string } {
  const { tokens, unit } = splitConversion(body);
  const last = tokens.at(-1);
  if (last === undefined)
    throw new UnitError('nothing stands before the unit', 0, body.length, 'name = formula -> unit');
  const formula = body.slice(0, last.offset + last.length);
  return unit === undefined ? { formula } : { formula, unit: unit.text };
}
