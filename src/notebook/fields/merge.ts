/** One mapping over another: a variant of something says only what differs. */
import type { LocatedEntry, LocatedMap } from '../document/located.ts';

/**
 * The entries of `own` take the place of those of `base`, mapping by mapping; every entry keeps its place in the notebook.
 * A mapping in `own` over a single value or a list replaces it as a whole, and the other way round.
 */
export function mergeMaps(base: LocatedMap, own: LocatedMap): LocatedMap {
  const kept = base.entries.map(entry => {
    const other = own.entries.find(({ key }) => key.text === entry.key.text);
    return other === undefined ? entry : mergeEntry(entry, other);
  });
  const added = own.entries.filter(({ key }) => !base.entries.some(entry => entry.key.text === key.text));
  return { ...own, entries: [...kept, ...added] };
}

function mergeEntry(base: LocatedEntry, own: LocatedEntry): LocatedEntry {
  if (own.value.kind !== 'map') return own;
  if (base.value.kind === 'scalar') return { key: own.key, value: { ...own.value, over: base.value.text } };
  if (base.value.kind !== 'map') return own;
  return { key: own.key, value: mergeMaps(base.value, own.value) };
}
