/** `yaml part NAME`: a tyre, a drive unit, a pack or a battery cell that cars name. */
import type { Fields } from '../../model/fields/field.ts';
import { carFields } from '../../model/spec.ts';
import { entryOf, type LocatedMap, problemAt } from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import { placeOf } from '../document/place.ts';
import { NotebookProblem } from '../document/problem.ts';
import { fieldNeeds, inputValues, readCell, readFieldsOf, withSpec } from './fields.ts';
import { inheritedBy, joinedByFit, without } from './part-together.ts';
import { readTogether, togetherField, togetherOf, withCovariance } from './together.ts';
import { type CellKind, type CellText } from './kind.ts';
import { NOTHING } from './yield.ts';

/** The kinds of part and their fields: every group of a car that may be given by name. */
export const partFields: ReadonlyMap<string, Fields> = new Map(groups(carFields));

function groups(fields: Fields): [string, Fields][] {
  return Object.values(fields).flatMap(field => {
    if (field.kind !== 'group') return [];
    const own: [string, Fields][] = field.part === '' ? [] : [[field.part, field.fields]];
    return [...own, ...groups(field.fields)];
  });
}

export const part: CellKind = {
  kind: 'part',
  language: 'yaml',
  named: true,
  doc: 'a part that cars and other parts name',
  fields: {
    kind: { kind: 'choice', choices: [...partFields.keys()], doc: 'what it is', required: true },
  },
  notes: [
    `the fields of its kind: ${[...partFields.keys()].map(kind => `\`axlewatt cells part.${kind}\``).join(', ')}`,
    'from: another part of the same kind, here or shipped, that gives what is left out; or a calibrate cell that measured one',
    'together: numbers of it that were measured together, as a car cell says them, by paths below the part',
  ],
  prepare(cell) {
    const map = readCell(cell);
    const kind = kindOf(cell, map);
    const fields = partFields.get(kind) ?? {};
    const only = (keep: (key: string) => boolean): LocatedMap => ({
      ...map,
      entries: map.entries.filter(({ key }) => keep(key.text)),
    });
    const rest = only(key => key !== 'kind' && key !== 'together');
    const joint = only(key => key === 'together');
    return {
      needs: fieldNeeds(rest, fields, kind),
      run(world) {
        const { name } = cell.piece;
        const read = readFieldsOf(rest, fields, world, name, kind);
        const said = togetherOf(readFieldsOf(joint, { together: togetherField }, world, name).values);
        const own = withSpec(joint, name, () => withCovariance(said, name, read.inputs));
        const anew = new Set(own.flatMap(({ inputs = [] }) => inputs));
        const kept = inheritedBy(rest, kind, world).flatMap(group => without(group, path => anew.has(path)));
        const together = [...kept, ...own];
        const { inputs } = withSpec(joint, name, () => readTogether(joinedByFit(together), name, read.inputs));
        return {
          ...NOTHING,
          product: { kind: 'part', part: kind, map: rest, together },
          inputs,
          values: inputValues(inputs, name),
        };
      },
    };
  },
};

function kindOf(cell: CellText, map: LocatedMap): string {
  const expected = `one of ${[...partFields.keys()].join(', ')}`;
  const value = entryOf(map, 'kind')?.value;
  const fail = (place: Parameters<typeof problemAt>[0], message: string, cure = '') =>
    new NotebookProblem(problemAt(place, `${cell.piece.name}.kind`, message, expected, cure));
  if (value === undefined) throw fail(placeOf(cell.text, cell.piece.line), 'is missing');
  if (value.kind !== 'scalar') throw fail(value, 'is not a word');
  const word = value.text;
  if (!partFields.has(word)) throw fail(value, `unknown kind of part "${word}"`, nearest(word, partFields.keys()));
  return word;
}
