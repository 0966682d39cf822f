/**
 * Syntax tree of a unit or a formula: mathjs parses, and this takes its tree over node by node. Only what is named here
 * comes through, each with its place in the text, which mathjs does not keep: the names and numbers of a tree stand in
 * the order of the text, so that they can be counted off against the tokens.
 */
import type { MathNode } from 'mathjs';
import { UnitError } from './error.ts';
import { math } from './math.ts';
import { type Token, tokenise } from './token.ts';

export interface Span {
  readonly offset: number;
  readonly length: number;
}

export const COMPARISONS = ['smaller', 'smallerEq', 'equal', 'unequal', 'largerEq', 'larger'] as const;
export type Comparison = (typeof COMPARISONS)[number];

/** Operators by the names that mathjs gives them, with the number of sides. */
const OPERATORS = {
  add: 2,
  subtract: 2,
  multiply: 2,
  divide: 2,
  pow: 2,
  unaryMinus: 1,
  unaryPlus: 1,
  and: 2,
  or: 2,
  not: 1,
} as const;
export type Operator = keyof typeof OPERATORS;

export type Tree = Span &
  (
    | { readonly kind: 'number'; readonly value: number }
    | { readonly kind: 'truth'; readonly value: boolean }
    | { readonly kind: 'text'; readonly value: string }
    /** A name, dotted or not: a unit, a constant or something of the notebook. */
    | { readonly kind: 'name'; readonly name: string }
    | { readonly kind: 'call'; readonly name: string; readonly args: readonly Tree[] }
    /** `implicit`: two factors side by side, `3 kg`. */
    | { readonly kind: 'operator'; readonly op: Operator; readonly args: readonly Tree[]; readonly implicit: boolean }
    /** `a < b <= c`: one comparison between each two sides. */
    | { readonly kind: 'comparison'; readonly ops: readonly Comparison[]; readonly args: readonly Tree[] }
    /** `test ? yes : no`. */
    | { readonly kind: 'choice'; readonly args: readonly [Tree, Tree, Tree] }
  );

/** The tree of `tokens`, by default those of `text`. Throws UnitError. */
export function parseTree(text: string, tokens: readonly Token[] = tokenise(text)): Tree {
  if (tokens.length === 0) throw new UnitError('nothing stands here', 0, Math.max(1, text.length));
  const node = parsed(tokens);
  const leaves = tokens.filter(token => token.kind !== 'operator');
  const tree = takeOver(node, leaves, text);
  // Cannot happen while mathjs keeps the order of the text; if it ever did not, every place below would be wrong.
  if (leaves.length > 0) throw new UnitError('this formula cannot be read', 0, text.length);
  return tree;
}

function parsed(tokens: readonly Token[]): MathNode {
  const starts: number[] = [];
  let spelled = '';
  for (const token of tokens) {
    starts.push(spelled.length);
    spelled += `${spelling(token)} `;
  }
  try {
    return math().parse(spelled);
  } catch (error) {
    if (!(error instanceof SyntaxError && 'char' in error)) throw error;
    const char = Number(error.char) - 1;
    const found = starts.findLastIndex(start => start <= char);
    const after = tokens.at(-1) as Token;
    const end = after.offset + after.length;
    if (char >= spelled.length - 1) throw new UnitError('something is missing at the end', end - 1, 1);
    const { offset, length, text } = tokens[found] ?? after;
    if (text === ',') throw new UnitError('a comma is no decimal point', offset, length, 'a decimal point', '.');
    throw new UnitError(`"${text}" cannot stand here`, offset, length);
  }
}

/** A dotted name is one symbol to mathjs: it is never to look into an object. */
function spelling(token: Token): string {
  if (token.kind === 'text') return '"text"';
  return token.kind === 'name' && token.text.includes('.') ? 'dotted' : token.text;
}

/** Loosely typed view of a mathjs node: only what is checked below is used. */
interface Node {
  readonly type: string;
  readonly value?: unknown;
  readonly fn?: unknown;
  readonly args?: readonly Node[];
  readonly implicit?: boolean;
  readonly content?: Node;
  readonly conditionals?: readonly string[];
  readonly params?: readonly Node[];
  readonly condition?: Node;
  readonly trueExpr?: Node;
  readonly falseExpr?: Node;
}

/** Consumes the `leaves` that the node covers. */
function takeOver(node: Node, leaves: Token[], text: string): Tree {
  const children = (nodes: readonly (Node | undefined)[]): Tree[] =>
    nodes.flatMap(child => (child === undefined ? [] : [takeOver(child, leaves, text)]));
  const first = leaves[0];
  switch (node.type) {
    case 'ParenthesisNode':
      if (node.content !== undefined) return takeOver(node.content, leaves, text);
      break;
    case 'ConstantNode':
    case 'SymbolNode':
      return leaf(node, leaves.shift(), text);
    case 'FunctionNode': {
      const token = leaves.shift();
      if (token?.kind !== 'name') break;
      const args = children(node.args ?? []);
      const last = args.at(-1) ?? token;
      return { kind: 'call', name: token.text, args, ...cover([token, last]) };
    }
    case 'OperatorNode': {
      refuseAmbiguous(node, first);
      const args = children(node.args ?? []);
      const fn = String(node.fn);
      refuseNumberBehind(node, args[1]);
      if (isComparison(fn) && args.length === 2) return { kind: 'comparison', ops: [fn], args, ...cover(args) };
      if (!isOperator(fn) || OPERATORS[fn] !== args.length) break;
      return { kind: 'operator', op: fn, args, implicit: node.implicit === true, ...cover(args) };
    }
    case 'RelationalNode': {
      const args = children(node.params ?? []);
      return { kind: 'comparison', ops: (node.conditionals ?? []).filter(isComparison), args, ...cover(args) };
    }
    case 'ConditionalNode': {
      const [test, yes, no] = children([node.condition, node.trueExpr, node.falseExpr]);
      if (test === undefined || yes === undefined || no === undefined) break;
      return { kind: 'choice', args: [test, yes, no], ...cover([test, yes, no]) };
    }
  }
  throw new UnitError('this is not part of a formula', first?.offset ?? 0, first?.length ?? text.length);
}

function leaf(node: Node, token: Token | undefined, text: string): Tree {
  if (token === undefined) throw new UnitError('this formula cannot be read', 0, text.length);
  const { offset, length } = token;
  if (token.kind === 'text') return { kind: 'text', value: token.text, offset, length };
  if (node.type === 'SymbolNode') return { kind: 'name', name: token.text, offset, length };
  if (typeof node.value === 'boolean') return { kind: 'truth', value: node.value, offset, length };
  if (token.kind === 'number' && typeof node.value === 'number') {
    return { kind: 'number', value: node.value, offset, length };
  }
  throw new UnitError(`"${token.text}" is not a number`, offset, length); // null, undefined, NaN, Infinity
}

/** mathjs takes `1/2 kg` as half a kilogram, and so, surprisingly, `2/3/4 m` as 2/(0.75 m). */
function refuseAmbiguous(node: Node, token: Token | undefined): void {
  const below = node.fn === 'divide' ? node.args?.[1] : undefined;
  if (below?.fn === 'multiply' && below.implicit === true && below.args?.[0]?.fn === 'divide') {
    throw new UnitError('it is not clear what is divided by what', token?.offset ?? 0, token?.length ?? 1, 'brackets');
  }
}

/** `5 kg 6` would be a product. */
function refuseNumberBehind(node: Node, right: Tree | undefined): void {
  let first = node.implicit === true ? node.args?.[1] : undefined;
  while (first?.type === 'OperatorNode') first = first.args?.[0];
  if (first?.type !== 'ConstantNode' || right === undefined) return;
  throw new UnitError('an operator is missing before this number', right.offset, right.length);
}

function cover(parts: readonly Span[]): Span {
  const offset = Math.min(...parts.map(part => part.offset));
  return { offset, length: Math.max(...parts.map(part => part.offset + part.length)) - offset };
}

function isComparison(fn: string): fn is Comparison {
  return (COMPARISONS as readonly string[]).includes(fn);
}

function isOperator(fn: string): fn is Operator {
  return Object.hasOwn(OPERATORS, fn);
}
