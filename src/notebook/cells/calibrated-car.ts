/** The car of a cell with lines that a calibration found: what a following car cell starts from. */
import { type LocatedEntry, type LocatedMap, type LocatedNode, type Place, readYaml } from '../document/located.ts';
import { mergeMaps } from '../fields/merge.ts';

/**
 * The lines in place of what the car says; groups measured together are added to those of the car, but for what they measure anew.
 * Every new entry stands where the calibration does.
 */
export function calibratedCar(car: LocatedMap, lines: readonly string[], place: Place): LocatedMap {
  const found = placed(readYaml(lines.join('\n'), { file: place.file, line: place.line }), place);
  if (found.kind !== 'map') return car;
  const merged = mergeMaps(car, found);
  const [before, after] = [car, found].map(map => map.entries.find(({ key }) => key.text === 'together'));
  if (before?.value.kind !== 'list' || after?.value.kind !== 'list') return merged;
  const anew = new Set(after.value.items.flatMap(inputsOf));
  const kept = before.value.items.filter(group => !inputsOf(group).some(path => anew.has(path)));
  const together: LocatedEntry = { ...after, value: { ...after.value, items: [...kept, ...after.value.items] } };
  return { ...merged, entries: merged.entries.map(entry => (entry.key.text === 'together' ? together : entry)) };
}

function inputsOf(group: LocatedNode): readonly string[] {
  const inputs = group.kind === 'map' ? group.entries.find(({ key }) => key.text === 'inputs')?.value : undefined;
  return inputs?.kind === 'list' ? inputs.items.flatMap(item => (item.kind === 'scalar' ? [item.text] : [])) : [];
}

/** The same as if it stood in this place. */
export function placed(node: LocatedNode, place: Place): LocatedNode {
  if (node.kind === 'scalar') return { ...node, ...place };
  if (node.kind === 'list') return { ...node, ...place, items: node.items.map(item => placed(item, place)) };
  const entries = node.entries.map(({ key, value }) => ({ key: { ...key, ...place }, value: placed(value, place) }));
  return { ...node, ...place, entries };
}
