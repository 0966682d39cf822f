/** A car from plain data, such as a JSON file: what a car cell says, for programs. */
import { completeCar } from '../model/complete.ts';
import type { CompletedCar } from '../model/complete.ts';
import { told } from '../model/described.ts';
import type { MeasuredUnit } from '../model/drive/complete.ts';
import { type SpecCode, SpecError } from '../model/fields/spec-error.ts';
import { carFields } from '../model/spec.ts';
import type { CarSpec } from '../model/specs/car.ts';
import { readingAlone } from './context.ts';
import type { ProblemData } from './document/problem.ts';
import { oddities } from './fields/oddities.ts';
import { readFields } from './fields/read.ts';
import { readUnitFiles } from './files/unit-files.ts';
import { UnreadableFile } from './files/unreadable-file.ts';
import { type PlainGroup, plainGroup, styleOf } from './plain-nodes.ts';

/** How a car is read. */
export interface ReadCarOptions {
  /** In front of all paths; default `car`. */
  readonly name?: string;
  /** Text of a file that a drive unit names as its `map` or `torqueTable`. Left out: none can be read. */
  readonly readFile?: (file: string) => string;
}

export interface ReadCar extends CompletedCar {
  /** What was said, in SI, parts by their values: what a question takes. */
  readonly spec: CarSpec;
  /** What the files say that its drive units name. */
  readonly measured: ReadonlyMap<string, MeasuredUnit>;
}

/**
 * Reads a car as a car cell is read: a quantity as text with its unit (`"1240 kg"`, `"1240 kg ± 15 kg"`) or as a number in SI, a part that ships
 * by its name (`"tyres": "tyre_sport"`) or with what differs (`{ "from": "tyre_sport", "size": "175/70 R 13" }`), keys in camelCase or snake_case.
 * @param data an object, or the text of a JSON file.
 * @throws SpecError with all that is wrong, a line each; its `path` is that of the first, as it is written in the data.
 * @throws NotebookProblem, located in the file, for what is wrong in a file that it names.
 */
export function readCar(data: unknown, { name = 'car', readFile = noFile }: ReadCarOptions = {}): ReadCar {
  const group = plainGroup(objectOf(data, name), carFields, name);
  const { map, asWritten } = group;
  const { values, inputs, problems } = readFields(map, carFields, readingAlone(name));
  const [first] = problems;
  if (first !== undefined) throw refused(first, problems, group);
  return told(
    name,
    () => {
      const measured = readUnitFiles(values, name, readFile);
      const { car, inputs: assumed, notes } = completeCar(values, name, measured);
      const spec = values as unknown as CarSpec;
      const all = [...notes, ...oddities(inputs, carFields, 'metric')];
      return { car, spec, measured, inputs: [...inputs, ...assumed], notes: all };
    },
    asWritten,
  );
}

function objectOf(data: unknown, name: string): object {
  let value = data;
  if (typeof data === 'string') {
    try {
      value = JSON.parse(data);
    } catch (error) {
      throw new SpecError(
        name,
        `${name}: is no JSON: ${error instanceof Error ? error.message : ''}`,
        '',
        '',
        'outside',
      );
    }
  }
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value;
  throw new SpecError(
    name,
    `${name}: is no group of fields; expected an object with mass, tyres, drive and pack`,
    '',
    '',
    'outside',
  );
}

function refused(first: ProblemData, problems: readonly ProblemData[], { asWritten }: PlainGroup): SpecError {
  const meant = (problem: ProblemData): string =>
    codeOf(problem) === 'unknown' ? styleOf(asWritten(problem.path))(problem.nearest) : problem.nearest;
  const lines = problems.map(problem => {
    const { path, message, expected } = problem;
    const cure = meant(problem) === '' ? '' : `; did you mean "${meant(problem)}"?`;
    return `${asWritten(path)}: ${message}${cure === '' && expected !== '' ? `; expected ${expected}` : cure}`;
  });
  return new SpecError(asWritten(first.path), lines.join('\n'), first.expected, meant(first), codeOf(first));
}

function codeOf({ message }: ProblemData): SpecCode {
  if (message === 'is missing' || message === 'has no value') return 'missing';
  return message.startsWith('unknown key') ? 'unknown' : 'outside';
}

const noFile = (file: string): never => {
  throw new UnreadableFile(`no file can be read here: ${file}`);
};
