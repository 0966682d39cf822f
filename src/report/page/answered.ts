/** The runs of a notebook that have a result, in its order, and what their square brackets mean. */
import type { Input } from '../../model/fields/input.ts';
import type { Block, CellBlock } from '../../notebook/document/outcome.ts';
import type { Named } from '../../plots/comparison.ts';
import { chanceText } from '../../plots/kit/interval.ts';
import type { Result } from '../../runs/result.ts';
import { exactInputs } from '../exact-inputs.ts';
import { cellTitle } from './cell.ts';

/** A run of a cell with its name, and the address of all that there is to say of it. */
export interface Answered extends Named {
  readonly href: string;
  /** Of its section in the page. */
  readonly id: string;
  /** Line of its cell. */
  readonly line: number;
}

/** @param href of the place where all of a cell stands. @param id of its section in the page. */
export function answeredOf(
  blocks: readonly Block[],
  href: (block: CellBlock) => string,
  id: (block: CellBlock) => string = () => '',
): readonly Answered[] {
  return cellsOf(blocks).flatMap(block => {
    const { name, line, result } = block;
    return result === null ? [] : [{ name: cellTitle(name), line, result, href: href(block), id: id(block) }];
  });
}

/** What square brackets mean in the answers, and which inputs they do not know of; null where no result has any. */
export function bracketsOf(results: readonly Result[], inputs: readonly Input[]): string | null {
  const found = results.flatMap(({ intervals }) => (intervals === undefined ? [] : [intervals]));
  if (found.length === 0) return null;
  const chances = [...new Set(found.map(({ probability }) => chanceText(probability)))];
  const counts = found.map(({ samples }) => samples).filter(samples => samples > 0);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  const many = least === most ? String(least) : `${least} to ${most}`;
  const ways = [
    ...(counts.length > 0 ? [`by ${many} draws of the uncertain inputs`] : []),
    // The interval of a measurement takes no samples.
    ...(counts.length < found.length ? ['by what was measured'] : []),
  ];
  const exact = counts.length === 0 ? '' : exactInputs(inputs);
  return `Square brackets: ${chances.join(' or ')} lie between, ${ways.join(', or ')}.${exact === '' ? '' : ` ${exact}`}`;
}

/** Names of the cars that the cells with a result speak of, and of those that these are made from. */
export function answeredCars(cells: readonly CellBlock[], cars: ReadonlySet<string>): ReadonlySet<string> {
  const texts = cells.filter(({ result }) => result !== null).map(({ source }) => source.replaceAll(/#.*$/gmu, ''));
  const used = new Set([...cars].filter(name => texts.some(text => new RegExp(`\\b${name}\\b`, 'u').test(text))));
  for (const { name, sketch } of cells.toReversed())
    if (used.has(name) && sketch?.from !== null && sketch?.from !== undefined && cars.has(sketch.from))
      used.add(sketch.from);
  return used;
}

export function cellsOf(blocks: readonly Block[]): readonly CellBlock[] {
  return blocks.filter(block => block.kind === 'cell');
}
