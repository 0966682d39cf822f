/** From the rows of a mix to legs in turn, with the shares that come out of them. */
import { item, nth } from '../../columns.ts';
import type { LooseLeg } from '../../cycles/join-legs.ts';
import { legsOfMix, mix, type Share } from '../../cycles/mix.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import { distanceOf } from '../../cycles/statistics.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { FieldValue, FieldValues } from '../fields/read-context.ts';
import { isOpenSpeed, ROUND, type Way, type Ways, wholeOf } from './trip-way.ts';

export interface MixRead {
  readonly title: string;
  readonly legs: readonly LooseLeg[];
  /** The shares that were asked for and those that whole schedules give. */
  readonly note: string;
}

/**
 * @param legs how many, if the cell says so. @param path of the cell.
 * @throws SpecError, at the field in question. @throws NotebookProblem, located in a log.
 */
export function readMix(rows: readonly FieldValues[], legs: FieldValue | undefined, path: string, ways: Ways): MixRead {
  const below = `${path}.mix`;
  if (rows.length < 2) {
    throw new SpecError(below, 'has fewer than two schedules', 'two rows or more, each with a share');
  }
  const stated = sharesOf(rows, below);
  const pathOf = (k: number) => `${below}[${k + 1}]`;
  const said = rows.map((row, k) => (isOpenSpeed(row) ? null : ways.of(row, pathOf(k))));
  const lengths = said.map((way, k) => (way === null ? 0 : distanceOf(legOf(way, pathOf(k)))));
  const each = rows.map((row, k) => said[k] ?? ways.of(row, pathOf(k), pieceOf(nth(stated, k), stated, lengths)));
  const shares = each.map((way, k): Share => ({ schedule: legOf(way, pathOf(k)), share: nth(stated, k) }));
  const order = mix(shares, wholeOf(legs, legsOfMix(shares), `${path}.legs`));
  const loose = order.map((k): LooseLeg => {
    const { load } = item(rows, k);
    const { schedule } = item(shares, k);
    return {
      kind: 'leg',
      schedule,
      load: typeof load === 'number' ? load : null,
      steady: item(each, k).steady,
      slope: null,
    };
  });
  const titles = each.map(({ title }) => title);
  return { title: `mix of ${titles.join(' and ')}`, legs: loose, note: noteOf(shares, order, titles) };
}

/**
 * The length of a steady speed that says none, m: in the round in which the rarest of the other schedules is driven once it makes up its share exactly, in pieces
 * no longer than the longest of them. @param lengths of all rows, 0 of those that say none.
 */
function pieceOf(share: number, shares: readonly number[], lengths: readonly number[]): number {
  const longest = Math.max(...lengths);
  if (longest === 0) return share * ROUND;
  const whole = share * Math.max(...lengths.map((length, k) => length / nth(shares, k)));
  return whole / Math.ceil(whole / longest - 1e-9);
}

function sharesOf(rows: readonly FieldValues[], path: string): readonly number[] {
  const shares = rows.map(({ share }) => Number(share));
  const sum = shares.reduce((total, share) => total + share, 0);
  if (Math.abs(sum - 1) > 1e-9) {
    throw new SpecError(path, `has shares of ${percent(sum)} together`, 'shares of 100 % together');
  }
  return shares.map(share => share / sum);
}

/** @param path of the row. */
function legOf({ parts: [leg, more] }: Way, path: string): Schedule {
  if (leg?.kind === 'leg' && more === undefined) return leg.schedule;
  const cure = 'a log of one drive, or a trip in place of the mix';
  throw new SpecError(`${path}.log`, 'has a stop of more than 5 min in it', cure);
}

function noteOf(shares: readonly Share[], order: readonly number[], titles: readonly string[]): string {
  const lengths = shares.map(({ schedule }, k) => distanceOf(schedule) * order.filter(each => each === k).length);
  const whole = lengths.reduce((sum, metres) => sum + metres, 0);
  const told = shares.map(({ share }, k) => {
    const count = order.filter(each => each === k).length;
    return `${titles[k]} ${count === 1 ? 'once' : `${count} times`} for ${percent(nth(lengths, k) / whole)} of the way (${percent(share)} asked)`;
  });
  return `the mix is ${told.join(', ')}`;
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(3))} %`;
}
