/** From the energies of the cycles of a test to its consumption: the arithmetic of the standards, without a car. */
import { item, nth } from '../../columns.ts';

/** A cycle that was driven to its end. */
export interface DrivenCycle {
  /** J out of the terminals of the pack. */
  readonly energy: number;
  /** m. */
  readonly distance: number;
}

/** Of the ranges and consumptions in the city, 10 CFR 474.3(a)(2); the rest is highway. */
const CITY_SHARE = 0.55;

/** What US labels take off a tested range, where a car has no factor of its own (40 CFR 600, from memory; published labels agree). */
export const STICKER_FACTOR = 0.7;

/**
 * The first cycle, from cold, has the weight of its share of the usable energy, the others share the rest evenly: UN GTR No. 15,
 * Annex 8, 4.4.2.1 (from memory), and SAE J1634 for four UDDS (from memory). @param usable J of the whole test.
 */
export function cycleWeights(cycles: readonly DrivenCycle[], usable: number): readonly number[] {
  const first = cycles.length === 1 ? 1 : item(cycles, 0).energy / usable;
  return cycles.map((_, i) => (i === 0 ? first : (1 - first) / (cycles.length - 1)));
}

/** J/m. */
export function weightedConsumption(cycles: readonly DrivenCycle[], weights: readonly number[]): number {
  return cycles.reduce((sum, { energy, distance }, i) => sum + (nth(weights, i) * energy) / distance, 0);
}

/** By 55 to 45. */
export function cityAndHighway(city: number, highway: number): number {
  return CITY_SHARE * city + (1 - CITY_SHARE) * highway;
}
