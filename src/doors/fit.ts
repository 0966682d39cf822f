/** `axlewatt/fit`: from a log back to the car. */
export { leastSquares, scatterCovariance } from '../fit/least-squares.ts';
export type { Fitted, LeastSquares } from '../fit/least-squares.ts';
export { coastDown, coastRun } from '../fit/coast/coast-down.ts';
export type { CoastDay, CoastDown, CoastMeasurement } from '../fit/coast/coast-down.ts';
export type { Measured } from '../fit/coast/measured.ts';
export { launchFit } from '../fit/launch/launch-fit.ts';
export type { LaunchFit, LaunchMeasurement, Nuisance } from '../fit/launch/measurement.ts';
export { capacityOf, chargerOf, seasonFit } from '../fit/season/season-fit.ts';
export type { SeasonCharge, SeasonDrive, SeasonFit } from '../fit/season/season-fit.ts';
export { ascentOf } from '../fit/launch/ascent.ts';
export { readLaunchLog } from '../fit/launch/launch-log.ts';
export type { LaunchLog, LaunchLogOptions, Track } from '../fit/launch/launch-log.ts';
export { LogError } from '../cycles/log.ts';
export { readSpeedLog } from '../fit/speed-log.ts';
export type { SpeedLog } from '../fit/speed-log.ts';
export { studentQuantile } from '../fit/student.ts';
export { speedAfter, timeBetween } from '../fit/coast/closed-form.ts';
export type { Slowing } from '../fit/coast/closed-form.ts';
