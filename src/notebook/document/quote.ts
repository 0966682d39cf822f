/** A quoted result in words: a value, or a figure with its interval where two brackets stand behind it: `= dash.time []`. */
import { intervalText } from '../../plots/kit/interval.ts';
import type { World } from '../context.ts';
import { formatValue } from '../fields/display.ts';
import { FormulaError } from '../formula/formula.ts';

const BRACKETS = /\s*\[\s*\]$/u;

/** What is asked for, without the brackets. */
export function askedIn(quote: string): string {
  return quote.replace(BRACKETS, '');
}

/** @throws FormulaError with the place in `quote`. */
export function quoted(quote: string, world: World): string {
  const asked = askedIn(quote);
  const value = world.evaluate(asked);
  if (asked === quote) return formatValue(value, world.system);
  const figure = world.figure(asked);
  if (figure === null || typeof value.value !== 'number') {
    const message = 'only a figure of a run, a spread or a comparison has an interval';
    throw new FormulaError(
      message,
      asked.length,
      quote.length - asked.length,
      'one by its name, as in `= dash.time []`',
    );
  }
  const { output, ends } = figure;
  // Nothing is uncertain, or nobody took samples.
  if (ends === undefined) return formatValue(value, world.system);
  return intervalText(value.value, ends, output, world.system);
}
