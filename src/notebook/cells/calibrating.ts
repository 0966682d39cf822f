/** What every way of calibrating goes by. */
import type { Input } from '../../model/fields/input.ts';
import type { LocatedMap } from '../document/located.ts';
import type { FieldValues } from '../fields/read-context.ts';
import type { CarOfCell } from './the-car.ts';
import type { World } from '../context.ts';

/** What a calibration reads. */
export interface Calibrating {
  readonly name: string;
  readonly values: FieldValues;
  /** Of the car and of the cell itself. */
  readonly inputs: readonly Input[];
  readonly car: CarOfCell;
  /** What the car cell says. */
  readonly map: LocatedMap;
  readonly world: World;
  /** Takes what is assumed. */
  readonly assumed: Input[];
}
