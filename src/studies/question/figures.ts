/** The figures of runs that studies are about: which there are, how they are called, how they are told. */
import { item } from '../../columns.ts';
import { completeCar } from '../../model/complete.ts';
import { told } from '../../model/described.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { CAR_FIGURES } from '../../runs/answer/ask.ts';
import { createWithin, type Question, tripOf } from '../../runs/answer/question.ts';
import { renamedFigure, runKindOf } from '../../runs/kinds.ts';
import { each, refused, type Rule } from '../../runs/rules.ts';
import type { Column, Output, Result } from '../../runs/result.ts';
import { formatQuantity, type System } from '../../units.ts';
import { nearest } from '../../units/nearest.ts';
import { figure } from '../../units/rounding.ts';
import type { Subject, SubjectOutput } from './study-model.ts';
import { spokenPath } from './path-words.ts';

/** A figure with what is known about it. */
export interface StudyFigure extends SubjectOutput {
  /** As it is written: `dash.time`. */
  readonly name: string;
  readonly output: Output;
  /** The figure of the run as it stands in the notebook; null where it has none. */
  readonly value: number | null;
  /** Which way it is better; null where neither can be said. */
  readonly better: 'low' | 'high' | null;
}

export interface Study {
  readonly subject: Subject;
  readonly figures: readonly StudyFigure[];
  /** Every input behind the runs, each path once. */
  readonly inputs: readonly Input[];
}

export interface StudyRun {
  readonly question: Question;
  /** Behind this run alone. */
  readonly inputs: readonly Input[];
  readonly result: Result;
}

const KG = { metric: 'kg', imperial: 'lb' } as const;

/** Of the standing car. */
export const CAR_OUTPUTS: { readonly [key in (typeof CAR_FIGURES)[number]]: Output } = {
  mass: { label: 'mass', unit: 'kg', display: KG, doc: 'of the car without people' },
  front_axle: { label: 'front axle', unit: 'kg', display: KG, doc: 'load, driver and luggage included' },
  rear_axle: { label: 'rear axle', unit: 'kg', display: KG, doc: 'load, driver and luggage included' },
  pack_capacity: { label: 'capacity', unit: 'C', display: { metric: 'Ah', imperial: 'Ah' }, doc: 'of the pack' },
};

/**
 * A study of these runs.
 * @param path of whoever asks, for complaints. @param names of figures, such as `dash.time`; left out: the first ones of each run.
 * @throws SpecError, at the field in question.
 */
export function studyOfRuns(path: string, runs: readonly StudyRun[], names?: readonly string[]): Study {
  const inputs = new Map<string, Input>();
  for (const run of runs) for (const input of run.inputs) if (!inputs.has(input.path)) inputs.set(input.path, input);
  const figures = figuresOf(path, names, runs);
  const questions = runs.map(({ question }) => question);
  const outputs = figures.map(({ question, key }) => ({ question, key }));
  const all = [...inputs.values()];
  const ignores = runs.map(run => notOf(run, all));
  const subject = { questions, outputs, ...(ignores.some(paths => paths.length > 0) && { ignores }) };
  return { subject, figures, inputs: all };
}

/**
 * A study of questions, each of which is run once.
 * @param names of figures, such as `launch.time`; left out: the first ones of each run.
 * @throws SpecError
 */
export function studyOf(questions: readonly Question[], names?: readonly string[]): Study {
  each(QUESTION)(questions, 'questions');
  if (names !== undefined) each(NAME)(names, 'names');
  return told(
    '',
    () => studyOfRuns('figures', questions.map(ranOnce), names),
    path => path,
  );
}

const QUESTION: Rule = (value, path) => {
  if (typeof value !== 'object' || value === null || !('run' in value))
    throw refused(path, value, 'what questionOf gives');
};

const NAME: Rule = (value, path) => {
  if (typeof value !== 'string') throw refused(path, value, 'the name of a figure, such as launch.time');
};

function ranOnce(question: Question): StudyRun {
  const { car: carName, name, spec, measured, run } = question;
  const inputs: Input[] = [];
  const { car } = completeCar(spec, carName, new Map(measured), inputs);
  const trip = run.trip === undefined ? null : tripOf(run.trip);
  const asked = { name, carName, car, values: run.values, trip, inputs, within: createWithin(question)(car) };
  return { question, inputs, result: runKindOf(run.kind).run(asked, { wanted: undefined }) };
}

/**
 * Uncertain inputs of the same car that another run reckons with and this one does not, such as the heat of the pack in a launch:
 * to draw them here would make it another run.
 */
function notOf({ question, inputs }: StudyRun, all: readonly Input[]): string[] {
  const own = new Set(inputs.map(({ path }) => path));
  return all
    .filter(({ path, spread }) => spread !== undefined && path.startsWith(`${question.car}.`) && !own.has(path))
    .map(({ path }) => path);
}

function figuresOf(path: string, names: readonly string[] | undefined, runs: readonly StudyRun[]): StudyFigure[] {
  if (names !== undefined) {
    const found = names.map(name => figureOf(`${path}.outputs`, name, runs));
    return found.filter(({ name }, k) => found.findIndex(each => each.name === name) === k);
  }
  const answered = runs.flatMap(({ question, result }, index) =>
    shownOf({ question, result })
      .filter(key => typeof result.summary[key] === 'number')
      .slice(0, runKindOf(question.run.kind).headlines.length)
      .map(key => runFigure(runs, index, key)),
  );
  if (answered.length > 0) return answered;
  // Runs without an answer are asked all the same: with other values they may have one.
  return runs.flatMap(({ question }, index) =>
    runKindOf(question.run.kind).headlines.map(key => runFigure(runs, index, key)),
  );
}

/** Its headlines, then what else is worth showing where one of them has no answer. */
function shownOf({ question }: Pick<StudyRun, 'question' | 'result'>): readonly string[] {
  const { headlines, intervals } = runKindOf(question.run.kind);
  return [...new Set([...headlines, ...intervals])];
}

/** All that is a number. */
function numbersOf({ question, result }: Pick<StudyRun, 'question' | 'result'>): readonly string[] {
  const outputs = { ...runKindOf(question.run.kind).outputs, ...result.outputs };
  return Object.keys(outputs).filter(key => outputs[key]?.unit !== '');
}

/** One figure by its name. @throws SpecError */
function figureOf(path: string, name: string, runs: readonly StudyRun[]): StudyFigure {
  const names = (of: (run: StudyRun) => readonly string[]): string[] =>
    runs.flatMap(({ question, ...run }) => [
      ...of({ question, ...run }).map(key => `${question.name}.${key}`),
      ...CAR_FIGURES.map(key => `${question.car}.${key}`),
    ]);
  const known = names(numbersOf);
  const full = known.includes(name) ? name : (known.find(each => each.endsWith(`.${name}`)) ?? '');
  const [head = '', key = ''] = full.split('.');
  const index = runs.findIndex(run => run.question.name === head && numbersOf(run).includes(key));
  if (index >= 0) return runFigure(runs, index, key);
  const car = runs.findIndex(({ question }) => question.car === head);
  const output = CAR_OUTPUTS[key as keyof typeof CAR_OUTPUTS];
  if (car >= 0 && output !== undefined) return { question: car, key, name: full, output, value: null, better: null };
  const now = nowCalled(name, runs);
  if (now !== '') throw new SpecError(path, `"${name}" is called ${now} now`, now);
  throw new SpecError(
    path,
    `"${name}" is no figure of these runs`,
    `a number of theirs, such as ${[...new Set(names(shownOf))].join(', ')}`,
    nearest(name, known),
  );
}

/** The name of today of a figure that had another; '' where it never had. */
function nowCalled(name: string, runs: readonly StudyRun[]): string {
  const key = name.slice(name.indexOf('.') + 1);
  const now = runs
    .filter(({ question }) => name === key || name === `${question.name}.${key}`)
    .map(({ question }) => renamedFigure(question.run.kind, key))
    .find(each => each !== '');
  return now === undefined ? '' : name.slice(0, name.length - key.length) + now;
}

function runFigure(runs: readonly StudyRun[], index: number, key: string): StudyFigure {
  const { question, result } = item(runs, index);
  const value = result.summary[key];
  const output = result.outputs[key];
  if (output === undefined) throw new Error(`a ${question.run.kind} has no output ${key}`);
  return {
    question: index,
    key,
    name: `${question.name}.${key}`,
    output: key === 'time' && question.run.kind === 'launch' ? { ...output, label: targetLabel(result) } : output,
    value: typeof value === 'number' ? value : null,
    better: runKindOf(question.run.kind).better[key] ?? null,
  };
}

/** `to 100 km/h`: out of its run, "to the target speed" says too little. */
function targetLabel({ summary, outputs }: Result): string {
  const target = summary['target_speed'];
  const label = outputs['time']?.label ?? '';
  return typeof target === 'number' ? `to ${formatQuantity(target, 'm/s', 'km/h')}` : label;
}

/** `6.79 s`. */
export function figureText({ output }: StudyFigure, value: number | null, system: System): string {
  return value === null || Number.isNaN(value) ? 'no answer' : figure(value, output, system);
}

/** What people call a path with the name of a car or of a run in front. */
export function pathWords(path: string, { subject }: Pick<Study, 'subject'>): string {
  return spokenPath(
    path,
    subject.questions.some(({ car }) => path.startsWith(`${car}.`)),
  );
}

/** `to 100 km/h (slip road)`. */
export function figureTitle({ name, output }: StudyFigure): string {
  return `${output.label} (${name.replace(/\..*/, '').replaceAll('_', ' ')})`;
}

/** The same at the beginning of a sentence. */
export function figureHead(figure: StudyFigure): string {
  const title = figureTitle(figure);
  return title.charAt(0).toUpperCase() + title.slice(1);
}

/** A column of a study's table for a figure. */
export function figureColumn(figure: StudyFigure, values: Float64Array): Column {
  const { unit, display } = figure.output;
  return { label: figureTitle(figure), unit, display, values };
}

/** The key of a figure in tables and summaries: `dash_time`. */
export function figureKey({ name }: StudyFigure): string {
  return name.replaceAll('.', '_');
}
