/**
 * The one place where mathjs is made: its parser of formulas and its table of units, and nothing else of it. The parts
 * are put together by hand from their factories, with plain numbers underneath, because `create` would first build the
 * arithmetic of complex numbers, fractions and matrices that the unit table asks for: 0.1 s of every command, and twice
 * the size. Nothing here evaluates: `tree.ts` takes the syntax tree over, and the arithmetic of quantities is ours.
 */
import {
  createAccessorNode,
  createArrayNode,
  createAssignmentNode,
  createBlockNode,
  createConditionalNode,
  createConstantNode,
  createFunctionAssignmentNode,
  createFunctionNode,
  createIndexNode,
  createNode,
  createObjectNode,
  createOperatorNode,
  createParenthesisNode,
  createParse,
  createRangeNode,
  createRelationalNode,
  createSymbolNode,
  createUnitClass,
  type MathNode,
  type UnitStatic,
} from 'mathjs';

interface Scope {
  readonly [name: string]: unknown;
}

/** A factory takes what it depends on by name and gives the thing called `fn`. */
interface Factory {
  (scope: Scope): unknown;
  readonly fn: string;
}

// mathjs exports its factories without declaring them.
declare module 'mathjs' {
  export const createAccessorNode: Factory;
  export const createArrayNode: Factory;
  export const createAssignmentNode: Factory;
  export const createBlockNode: Factory;
  export const createConditionalNode: Factory;
  export const createConstantNode: Factory;
  export const createFunctionAssignmentNode: Factory;
  export const createFunctionNode: Factory;
  export const createIndexNode: Factory;
  export const createNode: Factory;
  export const createObjectNode: Factory;
  export const createOperatorNode: Factory;
  export const createParenthesisNode: Factory;
  export const createParse: Factory;
  export const createRangeNode: Factory;
  export const createRelationalNode: Factory;
  export const createSymbolNode: Factory;
  export const createUnitClass: Factory;
}

/** In the order in which they need each other. */
const FACTORIES: readonly Factory[] = [
  createUnitClass,
  createNode,
  createAccessorNode,
  createArrayNode,
  createAssignmentNode,
  createBlockNode,
  createConditionalNode,
  createConstantNode,
  createSymbolNode,
  createFunctionNode,
  createFunctionAssignmentNode,
  createIndexNode,
  createObjectNode,
  createOperatorNode,
  createParenthesisNode,
  createRangeNode,
  createRelationalNode,
  createParse,
];

/** Stands for a kind of number that never occurs. */
const Absent = Object;

/** What the factories ask for. Only the first lines are ever called: the rest belongs to evaluation. */
const GROUND: Scope = {
  config: { number: 'number', numberFallback: 'number', relTol: 1e-12, absTol: 1e-15, matrix: 'Array' },
  typed: Object.assign((_: string, signatures: Scope) => signatures['string'], { addConversion: () => {} }),
  number: Number,
  numeric: Number,
  addScalar: (a: number, b: number) => a + b,
  subtractScalar: (a: number, b: number) => a - b,
  multiplyScalar: (a: number, b: number) => a * b,
  divideScalar: (a: number, b: number) => a / b,
  pow: (a: number, b: number) => a ** b,
  abs: Math.abs,
  fix: Math.trunc,
  round: Math.round,
  equal: (a: number, b: number) => a === b,
  isNumeric: Number.isFinite,
  isBounded: Number.isFinite,
  format: String,
  math: {},
  mathWithTransform: {},
  subset: unused,
  size: unused,
  Complex: Absent,
  BigNumber: Absent,
  Fraction: Absent,
  ResultSet: Absent,
};

function unused(): never {
  throw new Error('mathjs was asked to evaluate');
}

interface Mathjs {
  readonly parse: (text: string) => MathNode;
  readonly Unit: UnitStatic;
}

let made: Mathjs | undefined;

/** Made at the first use: a command that reads no unit does not pay for it. */
export function math(): Mathjs {
  if (made !== undefined) return made;
  const scope: { [name: string]: unknown } = { ...GROUND };
  for (const factory of FACTORIES) scope[factory.fn] = factory(scope);
  made = scope as unknown as Mathjs;
  return made;
}
