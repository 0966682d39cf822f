/** Which tests have a command of their own. */

/** Tests that put another module in the place of one of ours: they need a process of their own. */
export const MOCKED: readonly string[] = ['tests/cli/faults.test.ts', 'tests/notebook/mutations.test.ts'];

/**
 * Proofs that take long because of what they are: whole examples, many calls of the command, a browser, processes that are killed,
 * every published check, many cars and many repeats. `npm test`
 * leaves them out and says so, `npm run test:slow` runs them, `npm run verify` and CI run both.
 */
export const SLOW: readonly string[] = [
  'tests/batch/kill.test.ts',
  'tests/cli/shards.test.ts',
  'tests/docs/pages.test.ts',
  'tests/docs/programs.test.ts',
  'tests/docs/readme.test.ts',
  'tests/explore/kept.test.ts',
  'tests/faults/beyond-limits.test.ts',
  'tests/faults/calibrate-bus.test.ts',
  'tests/faults/calibrate-season.test.ts',
  'tests/faults/careless-hands.test.ts',
  'tests/faults/currents.test.ts',
  'tests/faults/doubtful.test.ts',
  'tests/faults/files-of-the-command.test.ts',
  'tests/faults/frost.test.ts',
  'tests/faults/geared-axles.test.ts',
  'tests/faults/kept-answers.test.ts',
  'tests/faults/knobs.test.ts',
  'tests/faults/launches.test.ts',
  'tests/faults/new-command.test.ts',
  'tests/faults/old-car.test.ts',
  'tests/faults/samples.test.ts',
  'tests/faults/scenarios.test.ts',
  'tests/faults/schedules.test.ts',
  'tests/faults/short-words.test.ts',
  'tests/faults/starved-packs.test.ts',
  'tests/faults/strange-hands.test.ts',
  'tests/faults/studies.test.ts',
  'tests/fit/dirty-logs.test.ts',
  'tests/fit/held/counts.test.ts',
  'tests/live/controls.test.ts',
  'tests/live/figures.test.ts',
  'tests/live/firefox.test.ts',
  'tests/live/keyboard.test.ts',
  'tests/live/page.test.ts',
  'tests/live/pictures.test.ts',
  'tests/notebook/mutations.test.ts',
  'tests/published/intervals.test.ts',
  'tests/published/published.test.ts',
  'tests/runs/every-field.test.ts',
  'tests/runs/launch/alarms.test.ts',
  'tests/runs/launch/shift-points.test.ts',
  'tests/runs/schedule/far-behind.test.ts',
  'tests/scenarios/road-test.test.ts',
  'tests/scenarios/scenarios.test.ts',
  'tests/studies/drawn-cars.test.ts',
  'tests/units/mistyped.test.ts',
];
