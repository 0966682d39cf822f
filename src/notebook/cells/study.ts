/** What the cells of studies have in common: which runs they are about, and which of their figures. */
import type { Field } from '../../model/fields/field.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { RUN_KINDS } from '../../runs/kinds.ts';
import { studyOfRuns } from '../../studies/question/figures.ts';
import type { Study, StudyRun } from '../../studies/question/figures.ts';
import type { World } from '../context.ts';

export const ofField = {
  kind: 'words',
  to: [...RUN_KINDS.filter(({ within }) => within === undefined).map(({ kind }) => kind), 'duty'],
  doc: 'the runs that are done again and again',
  required: true,
} as const satisfies Field;

export const outputsField = {
  kind: 'words',
  doc: 'figures of those runs, such as dash.time, week.range or coupe.mass; left out: the first ones of each run',
} as const satisfies Field;

/** @param path of the cell. @throws SpecError, at the field in question. */
export function studyOf(
  path: string,
  values: { readonly of?: readonly string[]; readonly outputs?: readonly string[] },
  world: World,
): Study {
  const runs = (values.of ?? []).map((name): StudyRun => {
    const given = world.given(name);
    const product = given?.product;
    if (given === undefined || product?.kind !== 'result' || product.question === undefined) {
      throw new SpecError(`${path}.of`, `"${name}" can not be run again`, 'the name of a run');
    }
    return { question: product.question, result: product.result, inputs: given.inputs };
  });
  return studyOfRuns(path, runs, values.outputs);
}
