/**
 * Text with a unit to an SI number, and back for people. mathjs stands underneath and nowhere else; units exist only here
 * and at the edges of the program.
 */

/** The units in which people read results. */
export type System = 'metric' | 'imperial';

export { fromDisplay, sameDimension, toDisplay } from './units/convert.ts';
export { UnitError } from './units/error.ts';
export { formatQuantity } from './units/format.ts';
export { formatNumber, unitLabel } from './units/number-text.ts';
export { type Quantity, readQuantity } from './units/quantity.ts';
export { describeUnit, dimensionName } from './units/trade.ts';
