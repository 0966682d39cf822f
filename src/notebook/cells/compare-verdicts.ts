/** What a comparison says in words: who is best, what a step up gains and costs, where it stops paying, which limit breaks. */
import { differences, diminishing } from '../../studies/gain.ts';
import type { Figure } from '../../studies/gain.ts';
import { formatNumber, formatQuantity, type System, toDisplay, unitLabel } from '../../units.ts';
import type { CompareSpec } from './compare.ts';
import { figureText, figureTitle } from './study.ts';
import type { StudyFigure } from './study.ts';

/** A figure with its value for each car in turn. */
export interface CompareColumn {
  readonly figure: StudyFigure;
  /** Whether it is one of the standing car. */
  readonly own: boolean;
  readonly values: readonly Figure[];
}

/** Differences below this share of the figure are none. */
const NOTHING = 1e-3;

/** The best car of a figure; null where neither high nor low is better, and where they hardly differ. */
export function bestName({ figure, values }: CompareColumn, cars: readonly string[]): string | null {
  const known = values.flatMap((value, k) => (value === null ? [] : [{ value, car: cars[k]! }]));
  if (figure.better === null || known.length < 2) return null;
  const order = known.toSorted((a, b) => (figure.better === 'low' ? a.value - b.value : b.value - a.value));
  const [first, last] = [order[0]!, order.at(-1)!];
  if (Math.abs(first.value - last.value) <= NOTHING * Math.abs(first.value)) return null;
  return first.car;
}

/** Sentences without a full stop, the most important one first. */
export function compareVerdicts(
  all: readonly CompareColumn[],
  cars: readonly string[],
  spec: CompareSpec,
  system: System,
): string[] {
  return [
    ...all.flatMap(column => bestVerdict(column, cars, system)),
    ...all.flatMap(column => gainVerdicts(column, cars, all, spec, system)),
  ];
}

function bestVerdict(column: CompareColumn, cars: readonly string[], system: System): string[] {
  const { figure, values } = column;
  if (figure.better === null || column.own) return [];
  const best = bestName(column, cars);
  if (best === null) return [`${figureTitle(figure)}: the cars hardly differ`];
  const told = (k: number): string => figureText(figure, values[k] ?? null, system);
  const at = cars.indexOf(best);
  const others = cars.flatMap((car, k) => (k === at ? [] : [`${told(k)} with ${car}`]));
  return [`${figureTitle(figure)}: best is ${best} with ${told(at)}, against ${others.join(', ')}`];
}

/** What each car gains on the first one, for its kilograms and its money; for ranges alone: nothing else is bought like that. */
function gainVerdicts(
  { figure, values }: CompareColumn,
  cars: readonly string[],
  all: readonly CompareColumn[],
  spec: CompareSpec,
  system: System,
): string[] {
  if (figure.key !== 'range') return [];
  const masses = differences(all.find(({ figure: { key } }) => key === 'mass')?.values ?? cars.map(() => null));
  const prices = differences(spec.prices ?? cars.map(() => null));
  const display = figure.output.display[system];
  const amount = (metres: number): string =>
    `${formatNumber(toDisplay(metres, 'm', display), 3)} ${unitLabel(display)}`;
  const weight = system === 'metric' ? 'kg' : 'lb';
  const lines = differences(values).flatMap((gain, k) => {
    if (gain === null || k === 0) return [];
    const [mass, price] = [masses[k] ?? 0, prices[k] ?? 0];
    const pound = toDisplay(mass, 'kg', weight);
    const kilograms = `${formatNumber(Math.abs(pound), 3)} ${weight} ${mass > 0 ? 'heavier' : 'lighter'}`;
    const money = `${formatNumber(Math.abs(price))} ${price > 0 ? 'dearer' : 'cheaper'}`;
    // A rate has a meaning only where both go the same way.
    const each = (cost: number, per: number, what: string): string =>
      gain * cost > 0 ? ` (${amount((gain / cost) * per)} for each ${what})` : '';
    const parts = [
      `${amount(Math.abs(gain))} ${gain < 0 ? 'less' : 'more'} of ${figure.name}`,
      ...(mass === 0 ? [] : [`${kilograms}${each(pound, 1, weight)}`]),
      ...(price === 0 ? [] : [`${money}${each(price, 1000, '1000')}`]),
    ];
    return [`${cars[k]} against ${cars[0]}: ${parts.join(', ')}`];
  });
  return [...(spec.prices === undefined ? [] : [payVerdict(values, cars, spec.prices, spec.pays ?? 0.5, amount)]), ...lines];
}

function payVerdict(
  values: readonly Figure[],
  cars: readonly string[],
  prices: readonly number[],
  pays: number,
  amount: (metres: number) => string,
): string {
  const { steps, stops } = diminishing(values, prices, pays);
  const step = stops === null ? undefined : steps[stops];
  const [first] = steps;
  if (first === undefined) return 'the cars cost the same: there is no step to pay for';
  if (step === undefined) {
    return `every step up in price pays: none gains less than ${formatNumber(100 * pays)} % of what the first one gains for its money`;
  }
  const way = `the step from ${cars[step.from]} to ${cars[step.to]} does not pay`;
  if (step.rate <= 0) return `${way}: it gains no range`;
  return `${way}: ${amount(1000 * step.rate)} for each 1000, where the step from ${cars[first.from]} to ${cars[first.to]} brings ${amount(1000 * first.rate)}`;
}

/** What a car breaks of the masses that are permitted. */
export function brokenLimits(car: string, k: number, all: readonly CompareColumn[], spec: CompareSpec): string[] {
  const value = (key: string): Figure => all.find(({ figure, own }) => own && figure.key === key)?.values[k] ?? null;
  const [front, rear] = [value('front_axle'), value('rear_axle')];
  const gross = front === null || rear === null ? null : front + rear;
  return (
    [
      ['the permitted mass', gross, spec.grossMass],
      ['the permitted load of the front axle', front, spec.frontLimit],
      ['the permitted load of the rear axle', rear, spec.rearLimit],
    ] as const
  ).flatMap(([what, found, most]) =>
    found === null || most === undefined || found <= most
      ? []
      : [`${car} breaks ${what}: ${formatQuantity(found, 'kg', 'kg')} against ${formatQuantity(most, 'kg', 'kg')}`],
  );
}
