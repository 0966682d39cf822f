/** A launch worked out twice, and what to make of it where a method fails. */
import type { Car } from '../../model/car.ts';
import { SPEED } from '../../model/forward/state.ts';
import type { SecondOpinion } from '../result.ts';
import { endTime, launchAgain, secondOpinion } from '../second-opinion.ts';
import { TRAILS, trailingDrive } from '../trailing-wheels.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';

export interface Checked {
  /** By the second method where only that one came to the end. */
  readonly run: LaunchRun;
  /** Null where nothing checks the run. */
  readonly opinion: SecondOpinion | null;
  /** A sentence that the reader must see; '' for none. */
  readonly warning: string;
  /** Why neither method came to the end; '' where one did. */
  readonly lost: string;
}

/**
 * @param run the launch of this car with these options.
 * @param always whether the second method looks at a run that came to its end, too.
 */
export function checked(car: Car, options: LaunchOptions, run: LaunchRun, always = true): Checked {
  if (!always && run.solution.status !== 'failed') return { run, opinion: null, warning: '', lost: '' };
  const again = launchAgain(car, options);
  if (run.solution.status !== 'failed') {
    return { run, opinion: secondOpinion(run, again), warning: '', lost: '' };
  }
  if (again.solution.status !== 'failed') {
    const warning = `The usual method gave up ${placeOf(run)}: these figures are by the second one, and nothing checks them`;
    return { run: again, opinion: null, warning, lost: '' };
  }
  const why = trailingDrive(car) === undefined ? '' : `; one of its motors is one ${TRAILS}`;
  return { run, opinion: null, warning: '', lost: `neither method finds how the car moves on ${placeOf(run)}${why}` };
}

/** The launch as it is, by one method. */
export function alone(_car: Car, _options: LaunchOptions, run: LaunchRun): Checked {
  const lost =
    run.solution.status === 'failed' ? `the usual method gave up ${placeOf(run)}, and no other is there` : '';
  return { run, opinion: null, warning: '', lost };
}

function placeOf(run: LaunchRun): string {
  const { plant, solution } = run;
  const speed = solution.states[(solution.nodes - 1) * plant.states + SPEED] ?? Number.NaN;
  return `${endTime(run).toPrecision(3)} s after the start, at ${(3.6 * speed).toFixed(0)} km/h`;
}
