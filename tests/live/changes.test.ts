import { describe, expect, it } from 'vitest';
import { changesOf } from '../../src/live/changes.ts';

const drawing = (bars: string, word = 'km &amp; h', fill = '#fff'): string =>
  `<svg width="9"><rect fill="${fill}"/><g><g transform="a">${bars}</g><text x="1">${word}</text></g></svg>`;

/** Elements in the order of the document, as a browser numbers them. */
describe('what differs between two drawings', () => {
  const before = drawing('<path d="M0"/><path d="M1"/>');
  it('is nothing where they are the same', () => expect(changesOf(before, before)).toEqual([]));
  it('is an attribute, without what the text of a page writes otherwise', () =>
    expect(changesOf(before, drawing('<path d="M0"/><path d="M1"/>', 'km &amp; h', 'a&quot;&lt;b'))).toEqual([
      [1, { fill: 'a"<b' }, null],
    ]));
  it('is the text of an element, as it is written', () =>
    expect(changesOf(before, drawing('<path d="M0"/><path d="M1"/>', 'm &lt; s'))).toEqual([[6, {}, 'm &lt; s']]));
  it('is all that stands in an element where something comes or goes, and no more', () => {
    expect(changesOf(before, drawing('<path d="M2"/>', 'mi'))).toEqual([
      [3, {}, '<path d="M2"/>'],
      [6, {}, 'mi'],
    ]);
    expect(changesOf(before, drawing('<path d="M0" fill="a"/><path d="M1"/>'))).toEqual([
      [3, {}, '<path d="M0" fill="a"/><path d="M1"/>'],
    ]);
  });
  it('is not told of two that are not of one kind', () => {
    expect(changesOf(before, '<g width="9"></g>')).toBeNull();
    expect(changesOf(before, '<svg height="9"></svg>')).toBeNull();
    expect(changesOf(before, '<svg width="9"><g>')).toBeNull();
  });
});
