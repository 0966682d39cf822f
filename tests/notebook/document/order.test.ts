import { describe, expect, it } from 'vitest';
import { orderCells } from '../../../src/notebook/document/order.ts';

const cells = (edges: Record<string, string[]>) => Object.entries(edges).map(([name, needs]) => ({ name, needs }));

describe('orderCells', () => {
  it('puts every cell after what it needs, whatever the order written', () => {
    const { order, circles } = orderCells(
      cells({ check: ['dash', 'sums'], sums: ['dash'], dash: ['coupe'], coupe: [] }),
    );
    expect(circles).toEqual([]);
    expect(order).toEqual(['coupe', 'dash', 'sums', 'check']);
  });

  it('keeps the written order among cells that do not need each other', () => {
    expect(orderCells(cells({ b: [], a: [], c: [] })).order).toEqual(['b', 'a', 'c']);
  });

  it('passes over names that are no cells, and counts a need only once', () => {
    expect(orderCells(cells({ a: ['nobody', 'b', 'b'], b: [] })).order).toEqual(['b', 'a']);
  });

  it('names a circle in the order it goes round and still orders those that hang on it', () => {
    const { order, circles } = orderCells(cells({ a: ['b'], b: ['c'], c: ['a'], user: ['a'], free: [] }));
    expect(circles).toEqual([['a', 'b', 'c']]);
    expect(order).toEqual(['free', 'user']);
  });

  it('finds two circles apart, one inside what hangs on the other, and a cell that needs itself', () => {
    const { circles } = orderCells(cells({ a: ['b'], b: ['a'], c: ['d', 'a'], d: ['c'], e: ['e'] }));
    expect(circles.map(circle => circle.toSorted())).toEqual([['a', 'b'], ['c', 'd'], ['e']]);
  });

  it('does not leave out the stem that leads into a circle', () => {
    const { order, circles } = orderCells(cells({ stem: ['a'], a: ['b'], b: ['a'] }));
    expect(circles).toEqual([['a', 'b']]);
    expect(order).toEqual(['stem']);
  });

  it('orders a chain of 20,000 cells without running out of stack', () => {
    const chain = Array.from({ length: 20_000 }, (_, k) => ({ name: `c${k}`, needs: k === 0 ? [] : [`c${k - 1}`] }));
    expect(orderCells(chain.toReversed()).order).toEqual(chain.map(cell => cell.name));
  });
});
