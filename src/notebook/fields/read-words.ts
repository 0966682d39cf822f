/** Reads a list of words: `[dash, week]`, `dash, week`, or one below the other. */
import { type LocatedNode, type LocatedScalar, placeWithin } from '../document/located.ts';

/** Words that a list may have. */
export const MOST_WORDS = 1000;

/** The words of a node with their places; empty for anything but a list of single values. */
export function wordsIn(node: LocatedNode): readonly LocatedScalar[] {
  if (node.kind === 'map') return [];
  if (node.kind === 'list') return node.items.filter(item => item.kind === 'scalar');
  if (node.text.trim() === '') return [];
  let offset = 0;
  return node.text.split(',').map(piece => {
    const text = piece.trim();
    const place = placeWithin(node, offset + piece.indexOf(text), text.length);
    offset += piece.length + 1;
    return { kind: 'scalar', value: text, text, ...place };
  });
}
