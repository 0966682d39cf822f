import { expect, it } from 'vitest';
import { GRIP, L, REAR_SHIFT } from '../../../src/model/forward/state.ts';
import { isHeldByPack } from '../../../src/runs/schedule/free-drive.ts';

/** Of a front and a rear axle. */
const mode = (front: number, rear: number): number => front | (rear << REAR_SHIFT);

it('calls a car held back by its pack where an axle has no more than that leaves it, and not where its tyres hold it below that', () => {
  expect(isHeldByPack(mode(0, L.minVoltage))).toBe(true);
  expect(isHeldByPack(mode(L.current, L.torque))).toBe(true);
  expect(isHeldByPack(mode(0, L.busVoltage | GRIP))).toBe(false);
  // The front axle follows a rear one that its grip holds: nine seconds of such a way were struck off a range, or not, by round-off.
  expect(isHeldByPack(mode(L.split, L.busVoltage | GRIP))).toBe(false);
  expect(isHeldByPack(mode(L.current, L.busVoltage | GRIP))).toBe(true);
  expect(isHeldByPack(mode(L.torque, L.power))).toBe(false);
});
