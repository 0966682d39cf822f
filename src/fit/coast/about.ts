/** What a coast-down is told against: the car and the day as they were assumed. */
import type { Measured } from './measured.ts';

/** What slows the car as it was assumed, N over m/s, on a level road in still air; null where it does not coast. */
export type ForceBefore = ((speed: number) => number) | null;

export interface CoastAbout {
  readonly before: ForceBefore;
  /** m2 of the car as it was assumed. */
  readonly dragArea: number;
  /** kg of the car with its people. */
  readonly mass: number;
  readonly warnings: readonly string[];
  /** K and Pa. */
  readonly standard: { readonly temperature: number; readonly pressure: number };
  readonly coupled: string;
  /** N of bearings, brakes and gears at 80 km/h that are no part of the tyres. */
  readonly beside: Measured;
  /** Whether the wind across the road was said. */
  readonly sideWind: boolean;
  /** N at 80 km/h of the car as it was assumed; null where it does not coast. */
  readonly assumed: Measured | null;
}
