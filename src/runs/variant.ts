/** The same car with one thing changed. */
import type { Car, Friction, Tyre } from '../model/car.ts';

/** Peak and sliding friction of the driven tyres times `factor`, dry and wet. */
export function withFriction(car: Car, factor: number): Car {
  const scale = (f: Friction): Friction => ({ peak: f.peak * factor, slide: f.slide * factor });
  const tyres: { front: Tyre; rear: Tyre } = { ...car.tyres };
  for (const { axle } of car.drives) {
    tyres[axle] = { ...tyres[axle], dry: scale(tyres[axle].dry), wet: scale(tyres[axle].wet) };
  }
  return { ...car, tyres };
}

/** Every drive unit with this much peak power in W, its peak torque unchanged. */
export function withPower(car: Car, peakPower: number): Car {
  return { ...car, drives: car.drives.map(drive => ({ ...drive, unit: { ...drive.unit, peakPower } })) };
}

/** Every driven axle under this traction policy; a share of the peak is kept only under `share`. */
export function withTraction(car: Car, policy: 'held' | 'spin'): Car {
  return { ...car, drives: car.drives.map(drive => ({ ...drive, traction: { policy, share: 1 } })) };
}
