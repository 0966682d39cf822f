/**
 * Propagation of distributions by a Monte-Carlo method: JCGM 101:2008, Evaluation of measurement data - Supplement 1 to the
 * "Guide to the expression of uncertainty in measurement".
 */
import { item } from '../../columns.ts';
import { checkProbability } from './coverage.ts';
import type { CoverageKind } from './coverage.ts';
import type { Draw } from '../sampling/draw.ts';
import { estimate } from './estimate.ts';
import type { Estimate } from './estimate.ts';
import { evaluateRange } from '../question/evaluate.ts';
import type { Evaluate, IndexRange, InputsAt } from '../question/evaluate.ts';
import { sampler } from '../sampling/sample.ts';
import { blockFigures, numericalError, pooledStandard, stable, toleranceFor } from './stability.ts';
import type { BlockFigures, NumericalError } from './stability.ts';
import type { Source } from '../sampling/stream.ts';

/** How exact a result is wanted: significant digits of its standard uncertainty, or a tolerance in its own unit. */
export type Accuracy = { readonly digits: number } | { readonly tolerance: number };

export interface MonteCarloPlan {
  /** The uncertain inputs in the order of the model's `x`; with `sobol` those that matter most should come first. */
  readonly draws: readonly Draw[];
  /** Number of outputs of the model. */
  readonly outputs: number;
  /** Whole number from 0 to 2^53 - 1. The same seed gives the same numbers. */
  readonly seed: number;
  readonly source?: Source;
  /** Coverage probability; 0.95 unless stated. */
  readonly probability?: number;
  /** Interval whose ends are watched; `symmetric` unless stated. Both are in the result. */
  readonly watch?: CoverageKind;
  /**
   * A fixed number of samples, or as many as it takes until all watched numbers of all outputs
   * are within their tolerance, `most` at most (clause 7.9.4).
   */
  readonly samples: { readonly fixed: number } | { readonly most: number };
  /** One for each output, or one for all; one significant digit unless stated. */
  readonly accuracy?: Accuracy | readonly Accuracy[];
  /**
   * Samples in a block. Adaptive: max(100/(1 - p), 10^4) unless stated (7.9.4 b). Fixed: about an eighth of all. `sobol` takes powers
   * of two and rounds up to the next one.
   */
  readonly block?: number;
}

/** One output: what the samples say, and how well they say it. */
export interface OutputSpread extends Estimate {
  readonly error: NumericalError;
  /** What the error was asked to be, in the unit of the output; null without answers. */
  readonly tolerance: number | null;
  /** Whether all four errors were within the tolerance when it ended. */
  readonly stabilised: boolean;
}

export interface MonteCarlo {
  /** Samples taken, those without an answer included. */
  readonly samples: number;
  readonly block: number;
  readonly probability: number;
  readonly outputs: readonly OutputSpread[];
  /** Whether every output has stabilised. */
  readonly stabilised: boolean;
  /** One per output, NaN where a sample has no answer; sample `i` is the one that `inputsOf` gives for `i`. */
  readonly columns: readonly Float64Array[];
}

/** Plan with everything filled in. */
interface Settings {
  readonly probability: number;
  readonly watch: CoverageKind;
  readonly source: Source;
  readonly block: number;
  readonly most: number;
  readonly adaptive: boolean;
  readonly accuracy: readonly Accuracy[];
}

/** Runs the whole plan here and now. */
export function monteCarlo(evaluate: Evaluate, plan: MonteCarloPlan): MonteCarlo {
  const inputsAt = inputsOf(plan);
  const shape = { inputs: plan.draws.length, outputs: plan.outputs };
  const steps = monteCarloSteps(plan);
  let step = steps.next();
  while (step.done !== true) step = steps.next(evaluateRange(evaluate, inputsAt, shape, step.value));
  return step.value;
}

/** Inputs of each sample of a plan: all that a worker needs besides the model. */
export function inputsOf(plan: MonteCarloPlan): InputsAt {
  const { source, block } = settingsOf(plan);
  return sampler(plan.draws, { source, seed: plan.seed, block });
}

/**
 * The procedure without the work: asks for ranges of samples, takes their columns (one per output) and ends with the
 * result. Who does the work, and in how many pieces, has no say in the result. Throws a RangeError for a plan that is none.
 */
export function* monteCarloSteps(plan: MonteCarloPlan): Generator<IndexRange, MonteCarlo, readonly Float64Array[]> {
  const settings = settingsOf(plan);
  const { block, most, adaptive, probability, watch } = settings;
  const chunks: (readonly Float64Array[])[] = [];
  const figures = Array.from({ length: plan.outputs }, (): BlockFigures[] => []);
  let samples = 0;
  do {
    const range = { from: samples, to: adaptive ? samples + block : most };
    const columns = yield range;
    checkColumns(columns, plan.outputs, range);
    chunks.push(columns);
    samples = range.to;
    for (const [k, column] of columns.entries()) {
      // What is left over after whole blocks has no say in how well the whole is known.
      const whole = Math.max(block, column.length - (column.length % block));
      for (let at = 0; at < Math.min(whole, column.length); at += block) {
        item(figures, k).push(blockFigures(column.subarray(at, at + block), probability, watch));
      }
    }
  } while (samples + block <= most && !settled(figures, settings));

  const columns = figures.map((_, k) => joined(chunks, k, samples));
  const outputs = columns.map((column, k): OutputSpread => {
    const error = numericalError(item(figures, k));
    const summary = estimate(column, probability);
    const tolerance = summary.standard === null ? null : asked(item(settings.accuracy, k), summary.standard);
    return { ...summary, error, tolerance, stabilised: tolerance !== null && stable(error, tolerance) };
  });
  return {
    samples,
    block,
    probability,
    outputs,
    stabilised: outputs.every(output => output.stabilised),
    columns,
  };
}

/** Whether the samples so far are enough; the first block never is (7.9.4 e). */
function settled(figures: readonly (readonly BlockFigures[])[], { accuracy }: Settings): boolean {
  return figures.every((blocks, k) => {
    if (blocks.length < 2) return false;
    // All values so far together give the uncertainty whose digits are asked for (7.9.4 h).
    const standard = pooledStandard(blocks);
    return Number.isFinite(standard) && stable(numericalError(blocks), asked(item(accuracy, k), standard));
  });
}

function asked(accuracy: Accuracy, standard: number): number {
  return 'tolerance' in accuracy ? accuracy.tolerance : toleranceFor(standard, accuracy.digits);
}

function joined(chunks: readonly (readonly Float64Array[])[], output: number, samples: number): Float64Array {
  if (chunks.length === 1) return item(item(chunks, 0), output);
  const column = new Float64Array(samples);
  let at = 0;
  for (const chunk of chunks) {
    const part = item(chunk, output);
    column.set(part, at);
    at += part.length;
  }
  return column;
}

function settingsOf(plan: MonteCarloPlan): Settings {
  const probability = plan.probability ?? 0.95;
  checkProbability(probability);
  const source = plan.source ?? 'sobol';
  const adaptive = 'most' in plan.samples;
  const stated = 'most' in plan.samples ? plan.samples.most : plan.samples.fixed;
  const usual = adaptive ? Math.max(Math.ceil(100 / (1 - probability)), 1e4) : Math.max(1, Math.round(stated / 8));
  const wanted = plan.block ?? usual;
  for (const [name, count] of [
    ['samples', stated],
    ['block', wanted],
    ['outputs', plan.outputs],
  ] as const) {
    if (!Number.isSafeInteger(count) || count < 1)
      throw new RangeError(`${name} must be a whole number from 1, got ${count}`);
  }
  // Only whole blocks of Sobol points are even; a fixed number is met better by the nearest power of two.
  const power = plan.block === undefined && !adaptive ? Math.round(Math.log2(wanted)) : Math.ceil(Math.log2(wanted));
  const block = source === 'sobol' ? 2 ** power : wanted;
  if (adaptive && stated < 2 * block) {
    throw new RangeError(`the adaptive procedure needs two blocks of ${block} samples at least, got ${stated} at most`);
  }
  return {
    probability,
    source,
    adaptive,
    block,
    most: stated,
    watch: plan.watch ?? 'symmetric',
    accuracy: accuracyOf(plan),
  };
}

function accuracyOf({ accuracy = { digits: 1 }, outputs }: MonteCarloPlan): readonly Accuracy[] {
  const all = 'length' in accuracy ? accuracy : Array.from({ length: outputs }, () => accuracy);
  if (all.length !== outputs) throw new RangeError(`${outputs} outputs need as many accuracies, got ${all.length}`);
  return all;
}

function checkColumns(columns: readonly Float64Array[], outputs: number, { from, to }: IndexRange): void {
  if (columns.length === outputs && columns.every(column => column.length === to - from)) return;
  throw new RangeError(`samples ${from} to ${to} need ${outputs} columns of ${to - from} numbers`);
}
