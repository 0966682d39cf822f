/** What people call an input. */
import { expect, it } from 'vitest';
import { spokenPath, wordsOfPath } from '../../../src/studies/question/path-words.ts';

it.each([
  ['mass', 'mass'],
  ['cg_height', 'height of the centre of gravity'],
  ['drive.ratio', 'drive ratio'],
  ['pack.cell.max_current', 'greatest current of the cells'],
  ['pack.cell.resistance_factor', 'resistance factor of the cells'],
  ['pack.resistance_activation', "growth of the cells' resistance in the cold"],
  ['drive.unit.peak_power', 'peak power of the drive unit'],
  ['second_drive.unit.inertia', 'inertia of the second drive unit'],
  ['drive.gearbox.shift_time', 'shift time of the gearbox'],
])('%s is called %s', (path, words) => {
  expect(wordsOfPath(path)).toBe(words);
});

it('names the car that it is of', () => {
  expect(spokenPath('slip_road.drive.unit.peak_torque', true)).toBe(
    'peak torque of the drive unit of the slip road car',
  );
});
