/** `yaml car NAME`: a whole car, or what differs from another one. */
import { completeCar } from '../../model/complete.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { World } from '../context.ts';
import { entryOf, type LocatedMap, problemAt } from '../document/located.ts';
import { mergeMaps } from '../fields/merge.ts';
import { oddities } from '../fields/oddities.ts';
import { sketchOf } from './car-sketch.ts';
import { nearest } from '../../units/nearest.ts';
import { NotebookProblem } from '../document/problem.ts';
import { readUnitFiles } from '../files/unit-files.ts';
import { carCellFields, weighedCarFields, weightsOf, withoutWeights } from './car-weights.ts';
import { joinedByFit, togetherOfParts, without } from './part-together.ts';
import { type Group, readTogether, togetherOf } from './together.ts';
import { fieldNeeds, inputValues, readCell, readFieldsOf, withSpec } from './fields.ts';
import { CALIBRATIONS } from './calibrate.ts';
import { type CellKind } from './kind.ts';
import { NOTHING } from './yield.ts';

export const car: CellKind = {
  kind: 'car',
  language: 'yaml',
  named: true,
  doc: 'a whole car: body, tyres, drive, pack',
  fields: carCellFields,
  beside: 'from',
  notes: [
    'from: another car cell, of which this one says only what differs; or a calibrate cell, for the car that it leaves',
  ],
  prepare(cell) {
    const written = readCell(cell);
    const own: LocatedMap = { ...written, entries: written.entries.filter(({ key }) => key.text !== 'from') };
    const from = entryOf(written, 'from')?.value;
    return {
      needs: [...fieldNeeds(own, carCellFields), ...(from?.kind === 'scalar' ? [from.text] : [])],
      run(world) {
        const { name } = cell.piece;
        const map = from === undefined ? own : mergeMaps(baseOf(from, name, world), own);
        const fields = entryOf(map, 'weights') === undefined ? carCellFields : weighedCarFields;
        const read = readFieldsOf(map, fields, world, name);
        const weights = weightsOf(map, read.values, world, name);
        const spec: CarSpec = { ...withoutWeights(read.values), ...weights.values };
        const { measured, ...completed } = withSpec(map, name, () => {
          const files = readUnitFiles(read.values, name, path => world.readFile(path));
          return { measured: files, ...completeCar(spec, name, files) };
        });
        const all = [...read.inputs, ...weights.inputs, ...completed.inputs];
        const { joint, inputs } = withSpec(map, name, () =>
          readTogether(jointOf(map, togetherOf(read.values), world), name, all),
        );
        const notes = [...completed.notes, ...oddities(read.inputs, carCellFields, world.system)];
        const base = from?.kind === 'scalar' ? from.text : null;
        const sketch = sketchOf(completed.car, map, own, base, world.system);
        const product = { kind: 'car', car: completed.car, map, sketch, notes, spec, measured, joint } as const;
        return { ...NOTHING, product, inputs, values: inputValues(inputs, name) };
      },
    };
  },
};

/** What the car says itself, and what the parts say that it names and leaves as they are. */
function jointOf(map: LocatedMap, own: readonly Group[], world: World): readonly Group[] {
  const anew = new Set(own.flatMap(({ inputs = [] }) => inputs));
  const parts = togetherOfParts(map, carCellFields, world);
  const kept = parts.flatMap(group => without(group, path => anew.has(path)));
  return [...joinedByFit(kept), ...own];
}

/** The mapping of the car that this one starts from, its own base merged in. */
function baseOf(from: LocatedMap['entries'][number]['value'], name: string, world: World): LocatedMap {
  const product = from.kind === 'scalar' ? world.given(from.text)?.product : undefined;
  if (product?.kind === 'car') return product.map;
  if (product?.kind === 'result' && product.calibrated !== undefined) return product.calibrated;
  if (product?.kind === 'result' && CALIBRATIONS.has(product.result.kind)) {
    const why = Object.values(product.result.reasons)[0] ?? '';
    throw new NotebookProblem(
      problemAt(from, `${name}.from`, `has no car to give: ${why}`, 'a calibration with an answer'),
    );
  }
  const meant = nearest(from.kind === 'scalar' ? from.text : '', world.reading(name).cells(['car', 'calibrate']));
  throw new NotebookProblem(
    problemAt(from, `${name}.from`, 'is no car', 'the name of a car cell or of a calibrate cell', meant),
  );
}
