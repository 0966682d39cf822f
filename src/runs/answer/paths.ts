/** Whether changes lead anywhere: one that leads nowhere would be passed over in silence. */
import { fieldAt, nearestPath, pathsOf } from '../../model/fields/at.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { carFields } from '../../model/spec.ts';
import { runKindOf } from '../kinds.ts';
import type { Question } from './question.ts';

/**
 * A function that looks at paths with the name of a car or run in front, `coupe.drive.ratio`, each once.
 * @throws SpecError for one that leads to no field of any of these questions, with the nearest that does.
 */
export function pathChecker(questions: readonly Question[]): (path: string) => void {
  const seen = new Set<string>();
  return path => {
    if (seen.has(path)) return;
    if (!questions.some(question => leads(question, path))) throw lost(questions, path);
    seen.add(path);
  };
}

function leads({ car, name, run }: Question, path: string): boolean {
  const [head = '', ...rest] = path.split('.');
  if (head === car) return rest.length === 0 || fieldAt(carFields, rest) !== null;
  return head === name && fieldAt(runKindOf(run.kind).fields, rest) !== null;
}

function lost(questions: readonly Question[], path: string): SpecError {
  const known = questions.flatMap(({ car, name, run }) => [
    ...pathsOf(carFields, 'all', `${car}.`),
    ...pathsOf(runKindOf(run.kind).fields, 'all', `${name}.`),
  ]);
  const [head = '', ...rest] = path.split('.');
  const heads = [...new Set(questions.flatMap(({ car, name }) => [car, name]))];
  const inside = heads.includes(head)
    ? nearestPath(
        rest.join('.'),
        known.filter(each => each.startsWith(`${head}.`)).map(each => each.slice(head.length + 1)),
      )
    : '';
  const meant = inside === '' ? nearestPath(path, known) : `${head}.${inside}`;
  const hint = meant === '' ? '' : `; did you mean "${meant}"?`;
  const expected = `a field of ${heads.join(' or ')}, with that name in front`;
  return new SpecError(
    path,
    `${path}: leads to no field${hint === '' ? `; expected ${expected}` : hint}`,
    expected,
    meant,
    'unknown',
  );
}
