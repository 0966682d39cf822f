/** What was given without a spread though nobody knows it exactly: samples take it as it stands. */
import type { Input } from '../model/fields/input.ts';
import { wordsOfPath } from '../studies/question/path-words.ts';

/** Ends of the paths of what is looked up, reckoned or guessed, and seldom measured. Our own choice. */
const ROUGH = [
  'drag_coefficient',
  'drag_area',
  'frontal_area',
  'cg_height',
  'hub_drag',
  'rolling_resistance',
  'slip_at_peak',
  'dry_peak',
  'wet_peak',
  'snow_peak',
  'ice_peak',
  'efficiency',
  'inverter_efficiency',
  'inertia',
  'drag_torque',
  'resistance_factor',
  'resistance_growth',
  'wiring_resistance',
  'health',
  'heat_capacity',
  'auxiliaries.power',
  'cabin.loss',
  'charger.overhead',
].map(end => `.${end}`);

/** Names that are told; of more their number. */
const TOLD = 5;

/** A sentence that says which they are; '' for none. A wheelbase is measured, a drag coefficient is not. */
export function exactInputs(inputs: readonly Input[]): string {
  const found = new Set(
    // The places of a list are one thing to people.
    inputs
      .filter(isTakenAsExact)
      .map(({ path }) => wordsOfPath(path.slice(path.indexOf('.') + 1).replace(/\[\d+\]/gu, ''))),
  );
  if (found.size === 0) return '';
  const told = [...found].slice(0, TOLD).join(', ');
  const more = found.size > TOLD ? ` and ${found.size - TOLD} more` : '';
  return `Given without ± and so taken as exact: ${told}${more}; what is not sure of them comes on top.`;
}

function isTakenAsExact({ path, value, origin, spread }: Input): boolean {
  if (origin.kind !== 'given' || typeof value !== 'number' || spread !== undefined) return false;
  return ROUGH.some(end => path.endsWith(end));
}
