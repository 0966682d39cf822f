/**
 * The same question again and again, to many cars: functions that keep the memory of their runs and give the figures alone, the same as those of
 * the whole run, to the last bit.
 */
import type { Trip } from '../cycles/trip.ts';
import type { Car } from '../model/car.ts';
import type { Wanted } from './kind.ts';
import { launchFigures } from './launch/figures.ts';
import { checkLaunch } from './launch/launch.ts';
import { launchOutputs } from './launch/outputs.ts';
import { createLauncher as createLaunches } from './launch/run.ts';
import type { LaunchOptions } from './launch/run.ts';
import { noFigures } from './no-answer.ts';
import { checkWanted } from './options.ts';
import { createTraveller } from './schedule/trip.ts';
import { soundFigures } from './sound.ts';
import type { Figures } from './sound.ts';
import { rangeOutputs } from './trip/range-outputs.ts';
import { checkRange, rangeFigures } from './trip/range.ts';
import type { RangeOptions } from './trip/range.ts';

/**
 * Launches one car after the other.
 * @param wanted keys of `launchOutputs`: what costs runs of its own and is not among them is left out. Default: all.
 * @returns a function that throws SpecError as `launch`.
 * @throws SpecError for a wanted figure that there is none of.
 */
export function createLauncher(wanted?: Wanted): (car: Car, options: LaunchOptions) => Figures {
  checkWanted(wanted, Object.keys(launchOutputs));
  const launcher = createLaunches();
  return (car, options) => {
    checkLaunch(car, options);
    const { summary, reasons } = launchFigures(car, options, wanted, launcher);
    return soundFigures('launch', launchOutputs, summary, reasons);
  };
}

/**
 * Drives one car after the other until its pack is empty.
 * @param wanted keys of `rangeOutputs`, as for `createLauncher`.
 * @returns a function that throws SpecError and ScheduleError as `range`.
 * @throws SpecError for a wanted figure that there is none of.
 */
export function createRanger(wanted?: Wanted): (car: Car, trip: Trip, options: RangeOptions) => Figures {
  checkWanted(wanted, Object.keys(rangeOutputs));
  const travel = createTraveller();
  return (car, trip, options) => {
    checkRange(car, trip, options);
    const ranged = rangeFigures(car, trip, options, wanted, travel);
    const { summary, reasons } = 'none' in ranged ? noFigures(rangeOutputs, ranged.none) : ranged;
    return soundFigures('range', rangeOutputs, summary, reasons);
  };
}
