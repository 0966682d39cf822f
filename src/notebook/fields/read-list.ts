/** Reads a table column: `[0 rpm, 3000 rpm]`, or `0, 3000, 6000 rpm` with the unit at the end for all of them. */
import type { NumbersField } from '../../model/fields/field.ts';
import type { Origin } from '../../model/fields/input.ts';
import { describeField } from './describe.ts';
import { type LocatedNode, type LocatedScalar, type Place, placeWithin, problemAt } from '../document/located.ts';
import type { ProblemData } from '../document/problem.ts';
import type { ReadContext } from './read-context.ts';
import { readNumber } from './read-number.ts';

const MOST = 1000;
const BARE = /^[+\-−]?[\d.]+(?:[eE][+-]?\d+)?$/u;

export interface ListRead {
  /** SI. */
  readonly values: readonly number[];
  readonly origin: Origin;
  readonly problems: readonly ProblemData[];
}

export function readNumbers(node: LocatedNode, field: NumbersField, path: string, context: ReadContext): ListRead {
  const { file, line, column } = node;
  const origin: Origin = { kind: 'given', file, line, column };
  const failed = (problem: ProblemData): ListRead => ({ values: [], origin, problems: [problem] });
  const scalars = scalarsOf(node);
  if (scalars === undefined || scalars.length === 0) {
    return failed(problemAt(node, path, 'is not a list of numbers', describeField(field)));
  }
  const grouped = groupedAt(node, scalars);
  if (grouped !== undefined) return failed(problemAt(grouped, path, ...UNCLEAR));
  if (scalars.length > MOST) return failed(problemAt(node, path, `has more than ${MOST} numbers`));
  const unit = unitOfLast(scalars);
  const values: number[] = [];
  const problems: ProblemData[] = [];
  for (const scalar of scalars) {
    const text = BARE.test(scalar.text) && unit !== '' ? `${scalar.text} ${unit}` : scalar.text;
    const doubt = field.money === true ? /^[1-9]\d{0,2}\.\d{3}$/u.exec(scalar.text.trim())?.[0] : undefined;
    if (doubt !== undefined) {
      const message = `${doubt} may be ${Number(doubt)} or ${doubt.replace('.', '')}`;
      problems.push(problemAt(scalar, path, message, 'whole sums, or two digits behind the point'));
      continue;
    }
    const read = readNumber(scalar, field, path, context, text);
    if (read.problem !== undefined) problems.push(read.problem);
    else if (read.quantity.spread === undefined) values.push(read.quantity.value);
    else problems.push(problemAt(scalar, path, 'the numbers of a table have no spread'));
  }
  return { values, origin, problems };
}

const UNCLEAR = [
  'this may be one number or two',
  'a space after a comma between two numbers, and nothing between thousands',
] as const;

/** Two numbers of a list that look like one with a comma between its thousands: `[6,900]`; undefined without such. */
function groupedAt(node: LocatedNode, scalars: readonly LocatedScalar[]): Place | undefined {
  if (node.kind !== 'list') return undefined;
  for (const [k, { file, line, column, length, source, text }] of scalars.entries()) {
    const next = scalars[k + 1];
    const touching = next?.line === line && next.column === column + length + 1 && source[next.column - 2] === ',';
    if (next === undefined || !touching || !/^[+-]?[1-9]\d{0,2}$/u.test(text) || !/^\d{3}(?!\d)/u.test(next.text))
      continue;
    return { file, line, column, length: length + 1 + next.length, source };
  }
  return undefined;
}

/** Undefined where the node holds anything but single values. */
function scalarsOf(node: LocatedNode): readonly LocatedScalar[] | undefined {
  if (node.kind === 'map') return undefined;
  if (node.kind === 'list') {
    const scalars = node.items.filter(item => item.kind === 'scalar');
    return scalars.length === node.items.length ? scalars : undefined;
  }
  if (node.text.trim() === '') return undefined;
  let offset = 0;
  // A comma inside a number, as in `1,5`, is left for the number to complain of.
  return node.text.split(/,(?=\s)/u).map(piece => {
    const text = piece.trim();
    const place = placeWithin(node, offset + piece.indexOf(text), text.length);
    offset += piece.length + 1;
    return { kind: 'scalar', value: text, text, ...place };
  });
}

/** The unit behind the last number, for all the bare ones before it. */
function unitOfLast(scalars: readonly LocatedScalar[]): string {
  const last = scalars.at(-1)?.text ?? '';
  // `5e-7` ends in no unit.
  if (BARE.test(last)) return '';
  return /^[+\-−]?[\d.]+(?:[eE][+-]?\d+)?\s*(?<unit>[^\d\s.,±=].*)$/u.exec(last)?.groups?.['unit'] ?? '';
}
