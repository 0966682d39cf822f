/** Everything that coast-downs answer with: label, units, meaning. */
import { mass, number, output, seconds, share, speed } from '../../runs/output.ts';
import type { Output } from '../../runs/result.ts';

const force = (label: string, doc: string): Output => output(label, 'N', 'N', 'lbf', doc);
const perSpeed = (label: string, doc: string): Output => output(label, 'N s/m', 'N s/m', 'lbf/mph', doc);
const perSquare = (label: string, doc: string): Output => output(label, 'N s^2/m^2', 'N s^2/m^2', 'N s^2/m^2', doc);

/** km/h at which forces are told. */
export const TOLD_SPEEDS = [50, 80, 100, 120] as const;

const forces = Object.fromEntries(
  TOLD_SPEEDS.map(at => [
    `force_${at}_km_h`,
    force(`road load at ${at} km/h`, 'on the day, in still air on a level road'),
  ]),
);

/** The keys of the summary in order of display. */
export const coastDownOutputs: { readonly [key: string]: Output } = {
  f0: force('F0', 'of F0 + F1 v + F2 v^2, corrected to 20 °C and 100 kPa, from the fit of speed over time'),
  f1: perSpeed('F1', 'the same'),
  f2: perSquare('F2', 'the same'),
  ...forces,
  force_before: force('the same at 80 km/h, as it was assumed', 'by what the car cell says, on that day'),
  drag_area: output('drag area', 'm^2', 'm^2', 'ft^2', '2 F2 over the density of the air'),
  rolling_coefficient: number(
    'rolling resistance',
    'F0 over the weight, at 25 °C: tyres, with hubs and brakes that drag, which no coast-down parts from them',
  ),
  wind: speed('wind', 'against a car that goes there, the mean of all pairs'),
  slope: share('slope', 'of the road on the way there'),
  moved_mass: mass('mass that moves', 'of the car with its people and with all that turns'),
  pairs: number('pairs of runs', 'one there and one back'),
  ways_differ: share(
    'the two ways differ',
    'the largest difference of their forces, fit of speed over time against windows of speed',
  ),
  worst_precision: share('statistical precision', 'of the times in the windows, the worst of them: 3 % is asked for'),
  worst_residual: speed('what is left', 'of speed, read less fitted, root of the mean square of the worst pair'),
  longest_run: seconds('longest run', 'from its first row to its last'),
};
