/** Each axle against what it may carry, and the tyres against load and speed. */
import { indexForLoad, loadOfIndex, speedOfSymbol, symbolForSpeed } from '../tyre/load-index.ts';
import type { Balance } from './mass-ledger.ts';

/** What stands on the plate and on the side walls; null where it is not known. */
export interface Limits {
  /** kg. */
  readonly front: AxleLimits;
  readonly rear: AxleLimits;
  /** kg of the whole car with everything in it. */
  readonly gross: number | null;
  /** kg of car and trailer, and on the hitch. */
  readonly train: number | null;
  readonly hitch: number | null;
  /** m/s that the car reaches. */
  readonly topSpeed: number | null;
}

export interface AxleLimits {
  /** kg. */
  readonly permitted: number | null;
  readonly loadIndex: number | null;
  readonly speedSymbol: string | null;
  /** m, of the free tyre; for the picture alone. */
  readonly radius: number | null;
}

export interface AxleCheck {
  /** kg on the axle, the car fully loaded. */
  readonly load: number;
  readonly permitted: number | null;
  /** kg left; negative when it is too much. */
  readonly margin: number | null;
  /** kg that both tyres carry. */
  readonly tyres: number | null;
  readonly tyreMargin: number | null;
  /** The smallest load index that would do for `load`; null where none known here would. */
  readonly indexNeeded: number | null;
  /** m/s that the tyres may run. */
  readonly tyreSpeed: number | null;
}

const TYRES_PER_AXLE = 2;

/** One axle. */
export function checkAxle(load: number, limits: AxleLimits): AxleCheck {
  const one = limits.loadIndex === null ? null : loadOfIndex(limits.loadIndex);
  const tyres = one === null ? null : TYRES_PER_AXLE * one;
  return {
    load,
    permitted: limits.permitted,
    margin: limits.permitted === null ? null : limits.permitted - load,
    tyres,
    tyreMargin: tyres === null ? null : tyres - load,
    indexNeeded: indexForLoad(load / TYRES_PER_AXLE),
    tyreSpeed: limits.speedSymbol === null ? null : speedOfSymbol(limits.speedSymbol),
  };
}

/** Both axles of a loaded car. */
export function checkAxles(full: Balance, limits: Limits): { readonly front: AxleCheck; readonly rear: AxleCheck } {
  return { front: checkAxle(full.front, limits.front), rear: checkAxle(full.rear, limits.rear) };
}

/** Whether a tyre of this symbol is too slow for the car, and the first one that would do. */
export function tooSlow(symbol: string, topSpeed: number): { readonly needed: string | null } | null {
  const allowed = speedOfSymbol(symbol);
  // A top speed read back from km/h may be above the limit by a rounding.
  if (allowed === null || topSpeed <= allowed * (1 + 1e-12)) return null;
  return { needed: symbolForSpeed(topSpeed) };
}
