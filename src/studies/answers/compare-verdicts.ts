/** What a comparison says in words: who is best, what a step up gains and costs, where it stops paying, which limit breaks. */
import { differences, diminishing } from '../search/gain.ts';
import type { Figure } from '../search/gain.ts';
import { formatNumber, formatQuantity, type System, toDisplay, unitLabel } from '../../units.ts';
import type { CompareSpec } from './compare-spec.ts';
import { figureHead, figureText, figureTitle } from '../question/figures.ts';
import { type Broken, bestOnes, type CompareColumn } from './best-car.ts';

/** Sentences without a full stop, the most important one first. */
export function compareVerdicts(
  all: readonly CompareColumn[],
  cars: readonly string[],
  spec: CompareSpec,
  system: System,
): string[] {
  const broken = cars.map((_, k) => brokenLimits(k, all, spec).map(({ what }) => what));
  // The first figure of each run is what it is about.
  const first = all.filter((column, k) => all.findIndex(each => sameRun(each, column)) === k);
  const best = (columns: readonly CompareColumn[]): string[] =>
    columns.flatMap(column => bestVerdict(column, cars, broken, system));
  const [pays, gains] = [payVerdicts(all, cars, broken, spec, system), gainVerdicts(all, cars, spec, system)];
  const rest = best(all.filter(column => !first.includes(column)));
  return [...best(first), ...keptVerdict(cars, all, spec), ...pays, ...gains, ...rest];
}

function bestVerdict(column: CompareColumn, cars: readonly string[], broken: Broken, system: System): string[] {
  const { figure, values } = column;
  if (figure.better === null || column.own) return [];
  const told = (k: number): string => figureText(figure, values[k] ?? null, system);
  const struck = cars.flatMap((car, k) => {
    const limits = broken[k] ?? [];
    return limits.length === 0 ? [] : [`${told(k)} with ${car}, which breaks ${limits.join(' and ')}`];
  });
  const out = struck.length === 0 ? '' : `; struck out: ${struck.join('; ')}`;
  const best = bestOnes(column, cars, broken);
  const head = figureHead(figure);
  const answered = values.some((value, k) => value !== null && (broken[k] ?? []).length === 0);
  if (!answered)
    return [
      `${head}: ${struck.length === cars.length ? 'no car keeps the limits' : 'no car that keeps the limits has an answer'}${out}`,
    ];
  if (best.length === 0) return [`${head}: the cars hardly differ${out}`];
  const others = cars.flatMap((car, k) =>
    best.includes(car) || (broken[k] ?? []).length > 0 ? [] : [`${told(k)} with ${car}`],
  );
  const against = others.length === 0 ? '' : `, against ${others.join(', ')}`;
  const is = best.length === 1 ? `best is ${best[0]}` : `best are ${best.join(' and ')} alike,`;
  return [`${head}: ${is} with ${told(cars.indexOf(best[0] ?? ''))}${against}${unsureText(column)}${out}`];
}

function unsureText({ unsure }: CompareColumn): string {
  return unsure === null ? '' : `; not sure: it is the best in ${formatNumber(100 * unsure, 2)} of 100 samples`;
}

/** That no car breaks what is permitted, where all of that is known of all cars. */
function keptVerdict(cars: readonly string[], all: readonly CompareColumn[], spec: CompareSpec): string[] {
  const checks = cars.map((_, k) => checksOf(k, all, spec));
  const [given = []] = checks;
  const kept = checks.every(car => car.every(({ found, most }) => most === undefined || (found ?? Infinity) <= most));
  const what = given.flatMap(({ what, most }) => (most === undefined ? [] : [what]));
  if (!kept || what.length === 0) return [];
  const full = spec.full?.every(loads => loads !== null) === true;
  return [`All cars keep ${what.join(' and ')}, ${full ? 'fully loaded' : 'with driver and load alone'}`];
}

function sameRun(a: CompareColumn, b: CompareColumn): boolean {
  return a.figure.question === b.figure.question && a.own === b.own;
}

/** Ranges alone are bought by the kilogram and for money. */
const ranges = (all: readonly CompareColumn[]): readonly CompareColumn[] =>
  all.filter(({ figure }) => figure.key === 'range');

function distanceText({ figure }: CompareColumn, metres: number, system: System): string {
  const display = figure.output.display[system];
  return `${formatNumber(toDisplay(metres, 'm', display), 3)} ${unitLabel(display)}`;
}

/** What each car gains on the first one, and what it weighs and costs more. */
function gainVerdicts(
  all: readonly CompareColumn[],
  cars: readonly string[],
  spec: CompareSpec,
  system: System,
): string[] {
  const masses = differences(all.find(({ figure: { key } }) => key === 'mass')?.values ?? cars.map(() => null));
  const prices = differences(spec.prices ?? cars.map(() => null));
  const weight = system === 'metric' ? 'kg' : 'lb';
  return ranges(all).flatMap(column =>
    differences(column.values).flatMap((gain, k) => {
      if (gain === null || gain === 0) return [];
      const [mass, price] = [toDisplay(masses[k] ?? 0, 'kg', weight), prices[k] ?? 0];
      const heavier = `${formatNumber(Math.abs(mass), 3)} ${weight} ${mass > 0 ? 'heavier' : 'lighter'}`;
      const dearer = `${formatNumber(Math.abs(price))} ${price > 0 ? 'dearer' : 'cheaper'}`;
      // A rate has a meaning only where both go the same way.
      const rate = (cost: number, per: number, what: string): string =>
        gain * cost > 0 ? ` (${distanceText(column, (gain / cost) * per, system)} for each ${what})` : '';
      const parts = [
        `${distanceText(column, Math.abs(gain), system)} ${gain < 0 ? 'less' : 'more'} of ${figureTitle(column.figure)}`,
        ...(mass === 0 ? [] : [`${heavier}${rate(mass, 1, weight)}`]),
        ...(price === 0 ? [] : [`${dearer}${rate(price, 1000, '1000 of money')}`]),
      ];
      return [`${cars[k]} against ${cars[0]}: ${parts.join(', ')}`];
    }),
  );
}

/** Where the next step up in price stops paying. */
function payVerdicts(
  all: readonly CompareColumn[],
  cars: readonly string[],
  broken: Broken,
  { prices, pays = 0.5 }: CompareSpec,
  system: System,
): string[] {
  if (prices === undefined) return [];
  return ranges(all).map(column => {
    // A car that breaks a limit is no step that anybody could pay for.
    const kept = column.values.map((value, k) => ((broken[k] ?? []).length === 0 ? value : null));
    const { steps, stops } = diminishing(kept, prices, pays);
    const each = (rate: number): string => `${distanceText(column, 1000 * rate, system)} for each 1000 of money`;
    const step = stops === null ? undefined : steps[stops];
    const [first] = steps;
    const title = figureHead(column.figure);
    if (first === undefined) {
      const known = kept.filter(value => value !== null).length;
      return known > 1
        ? `${title}: the cars cost the same, there is no step to pay for`
        : `${title}: of the cars that keep the limits ${known === 0 ? 'none' : 'but one'} has an answer, there is no step to pay for`;
    }
    if (step === undefined) {
      return `${title}: every step up in price pays: each brings at least ${pays === 0.5 ? 'half' : `${formatNumber(100 * pays)} % of`} what the first one brings for its money`;
    }
    const way = `${title}: the step from ${cars[step.from]} to ${cars[step.to]} does not pay`;
    if (step.rate <= 0) return `${way}, it gains nothing`;
    return `${way}, it brings ${each(step.rate)}, where the step from ${cars[first.from]} to ${cars[first.to]} brings ${each(first.rate)}`;
  });
}

/** A permitted mass that a car breaks, and by what, in words. */
interface BrokenLimit {
  readonly what: string;
  readonly figures: string;
}

/** What the car at this place breaks of the masses that are permitted. */
export function brokenLimits(k: number, all: readonly CompareColumn[], spec: CompareSpec): readonly BrokenLimit[] {
  const state = (spec.full?.[k] ?? null) === null ? ' with driver and load alone' : ' fully loaded';
  return checksOf(k, all, spec).flatMap(({ what, found, most }) =>
    found === null || most === undefined || found <= most
      ? []
      : [{ what, figures: `${formatQuantity(found, 'kg', 'kg')}${state} against ${formatQuantity(most, 'kg', 'kg')}` }],
  );
}

/** A permitted mass, and what the car at this place has of it; undefined where nothing is said, null where nothing is known. */
interface Check {
  readonly what: string;
  readonly found: Figure;
  readonly most: number | undefined;
}

function checksOf(k: number, all: readonly CompareColumn[], spec: CompareSpec): readonly Check[] {
  const value = (key: string): Figure => all.find(({ figure, own }) => own && figure.key === key)?.values[k] ?? null;
  const full = spec.full?.[k] ?? null;
  const [front, rear] = full === null ? [value('front_axle'), value('rear_axle')] : [full.front, full.rear];
  const gross = front === null || rear === null ? null : front + rear;
  return [
    { what: 'the permitted mass', found: gross, most: spec.grossMass },
    { what: 'the permitted load of the front axle', found: front, most: spec.frontLimit },
    { what: 'the permitted load of the rear axle', found: rear, most: spec.rearLimit },
  ];
}
