/** Two drives on one pack: each sees what the other draws. */
import { balance } from './balance.ts';
import type { AxleNow, Moving } from './instant.ts';
import { powerDrawn, wheelTorque } from './limits.ts';
import { isOpen, spinState } from './slip-step.ts';
import { atPack, AXLE_BITS, BREAK, follows, LIMIT_BITS, REAR_SHIFT, SLIDE } from './state.ts';

const MOST_PASSES = 60;

/** Passes after which what an axle is told of the other one moves by halves, and by quarters. */
const HALVES = 10;
const QUARTERS = 25;

/** The balance of both axles, until what they draw stands still. */
export function bothAxles(m: Moving, mode: number, y: Float64Array, v: number): void {
  const { front, rear, atFront, atRear, places } = m;
  const bitsFront = mode & AXLE_BITS;
  const bitsRear = (mode >> REAR_SHIFT) & AXLE_BITS;
  const breaks = (mode & BREAK) !== 0;
  meet(atFront, bitsFront, bitsRear);
  meet(atRear, bitsRear, bitsFront);
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const before = atFront.torque + atRear.torque;
    if (front.spin) {
      spinState(m, front, atFront, bitsFront & ~SLIDE, v, y[places.spinFront]!, isOpen(front, breaks));
    }
    if (rear.spin) spinState(m, rear, atRear, bitsRear & ~SLIDE, v, y[places.spinRear]!, isOpen(rear, breaks));
    balance(m, mode, v);
    // Near the peak of friction the slip, and with it the speed of a motor, moves so much with its torque that the two would go to
    // and fro for ever.
    const part = pass < HALVES ? 1 : pass < QUARTERS ? 0.5 : 0.25;
    tell(atFront, powerDrawn(rear, atRear), wheelTorque(rear, atRear), part);
    tell(atRear, powerDrawn(front, atFront), wheelTorque(front, atFront), part);
    const after = atFront.torque + atRear.torque;
    if (pass > 0 && Math.abs(after - before) < 1e-12 * Math.abs(after)) break;
  }
}

/** What an axle is told of the other one. @param bits of the axle. @param others of the other. */
function meet(at: AxleNow, bits: number, others: number): void {
  at.otherAtPack = atPack(others);
  at.otherFollows = follows(others);
  at.followedLimit = follows(bits) && at.otherAtPack ? others & LIMIT_BITS : 0;
  // A trial step of the solver may have left anything behind.
  if (!Number.isFinite(at.otherPower)) at.otherPower = 0;
  if (!Number.isFinite(at.otherWheel)) at.otherWheel = 0;
}

function tell(at: AxleNow, power: number, wheel: number, part: number): void {
  at.otherPower = part === 1 ? power : at.otherPower + part * (power - at.otherPower);
  at.otherWheel = part === 1 ? wheel : at.otherWheel + part * (wheel - at.otherWheel);
}
