/** A rigid driven axle: the torque of its propeller shaft loads one wheel and unloads the other. */
import type { AxleName, Body, LiveAxle } from '../car.ts';

/**
 * How much of its grip such an axle loses, per unit of friction: F = mu N / (1 + u mu) with u = 2 r K' / (Nf t K). The torque F r / Nf of
 * the shaft is carried by the body's roll stiffness K; the share K' of the other axle goes through the ground and unloads a wheel of
 * this one by F r / Nf K' / (K t), and an open differential gives both wheels what the lighter one takes (Gillespie, *Fundamentals of
 * Vehicle Dynamics*, ch. 2, maximum tractive force of a solid axle with a non-locking differential; from memory). Friction is that at the
 * load of the axle: that the lighter wheel grips a little better for its load is left aside, as there.
 * @param radius m, of the wheels. @returns 0 where nothing is unloaded.
 */
export function unloadingOf(live: LiveAxle | undefined, axle: AxleName, body: Body, radius: number): number {
  const { track, frontRollShare } = body;
  if (live === undefined || track === undefined || frontRollShare === undefined) return 0;
  const other = axle === 'rear' ? frontRollShare : 1 - frontRollShare;
  return (2 * radius * other) / (live.ratio * track);
}
