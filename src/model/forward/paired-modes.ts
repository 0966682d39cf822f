/** Modes of two driven axles that are one and the same car: which of them stands for it. */
import { atPack, axleMode, BREAK, follows, GRIP, L, LIMIT_BITS, SLIDE, withAxleMode } from './state.ts';

/** Of two axles that the pack holds back both are held by the same limit of it, also one to which it leaves no torque by any of them. */
export function together(mode: number, axle: number): number {
  const [bits, others] = [axleMode(mode, axle), axleMode(mode, 1 - axle)];
  if (!atPack(bits) || !atPack(others)) return mode;
  return withAxleMode(mode, 1 - axle, (others & ~LIMIT_BITS) | (bits & LIMIT_BITS));
}

/**
 * Two axles that keep a share at a limit of the pack are at it together: which of them leads is the same car, and it is the front one.
 * Round-off would tell.
 */
export function ledByFront(mode: number): number {
  const [front, rear] = [axleMode(mode, 0), axleMode(mode, 1)];
  if ((mode & BREAK) !== 0 || !follows(front) || !atPack(rear)) return mode;
  const led = withAxleMode(mode, 0, (front & SLIDE) | (rear & LIMIT_BITS));
  return withAxleMode(led, 1, (rear & SLIDE) | L.split);
}

/** The mode in which the current holds back what leads: of two axles that do not follow each other both. */
export function heldByCurrent(mode: number): number {
  let held = mode;
  for (const axle of [0, 1]) {
    const bits = axleMode(mode, axle);
    if (bits === 0 || follows(bits) || (bits & GRIP) !== 0) continue;
    held = withAxleMode(held, axle, (bits & SLIDE) | L.current);
  }
  return held;
}

/** An axle that no longer follows the other's torque is the one to be followed. */
export function followed(mode: number, axle: number): number {
  return withAxleMode(mode, 1 - axle, (axleMode(mode, 1 - axle) & SLIDE) | L.split);
}
