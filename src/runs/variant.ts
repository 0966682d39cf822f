/** The same car with one thing changed. */
import type { Car, Friction, Tyre } from '../model/car.ts';

/** Peak and sliding friction of the driven tyres times `factor`, whatever the road. */
export function withFriction(car: Car, factor: number): Car {
  const scale = (f: Friction): Friction => ({ peak: f.peak * factor, slide: f.slide * factor });
  const tyres: { front: Tyre; rear: Tyre } = { ...car.tyres };
  for (const { axle } of car.drives) {
    const { snow, ice, ...tyre } = tyres[axle];
    tyres[axle] = {
      ...tyre,
      dry: scale(tyre.dry),
      wet: scale(tyre.wet),
      ...(snow && { snow: scale(snow) }),
      ...(ice && { ice: scale(ice) }),
    };
  }
  return { ...car, tyres };
}

/** W of peak power of all drive units together; a unit that drives both axles counts once. */
export function totalPower(car: Car): number {
  return car.drives.reduce((sum, { unit }) => sum + unit.peakPower, 0);
}

/** The drive units with this much peak power in W together, each in the proportion that it has, their peak torque unchanged. */
export function withPower(car: Car, power: number): Car {
  const factor = power / totalPower(car);
  const drives = car.drives.map(drive => {
    const { unit } = drive;
    return { ...drive, unit: { ...unit, peakPower: factor * unit.peakPower } };
  });
  return { ...car, drives };
}

/** Every driven axle under this traction policy; a share of the peak is kept only under `share`. */
export function withTraction(car: Car, policy: 'held' | 'spin'): Car {
  return { ...car, drives: car.drives.map(drive => ({ ...drive, traction: { policy, share: 1 } })) };
}

/** The same, but with the slip of free wheels held at the peak: wheels that spin have no balance at a speed. */
export function withoutSpin(car: Car): Car {
  const held = { policy: 'held', share: 1 } as const;
  return {
    ...car,
    drives: car.drives.map(drive => (drive.traction.policy === 'spin' ? { ...drive, traction: held } : drive)),
  };
}

/** Drives and a pack without any limit: what is left is what the tyres take. */
export function withBoundlessDrive(car: Car): Car {
  const drives = car.drives.map(drive => {
    const { heat: _heat, voltage: _voltage, ...unit } = drive.unit;
    const losses = { copper: 0, iron: 0, windage: 0, fixed: 0 };
    return {
      ...drive,
      shaftTorque: null,
      unit: { ...unit, table: null, peakTorque: 1e7, peakPower: 1e12, losses, inverterEfficiency: 1 },
    };
  });
  const { heat: _heat, pulses: _pulses, weak: _weak, ...pack } = car.pack;
  return { ...car, drives, pack: { ...pack, maxCurrent: 1e9 } };
}

/** Standing still: no rolling resistance and no drag of hubs and gears, which push neither way. */
export function standing(car: Car): Car {
  const still = (tyre: Tyre): Tyre => ({ ...tyre, rolling: { c0: 0, c1: 0, c2: 0 } });
  return {
    ...car,
    body: { ...car.body, hubDrag: 0 },
    ...(car.trailer && { trailer: { ...car.trailer, rolling: 0 } }),
    tyres: { front: still(car.tyres.front), rear: still(car.tyres.rear) },
    drives: car.drives.map(drive => ({ ...drive, dragTorque: 0 })),
  };
}

/** Left in one gear, 0 for the first. */
export function inGear(car: Car, index: number): Car {
  return {
    ...car,
    drives: car.drives.map(drive => {
      const gear = drive.gearbox?.gears[index];
      if (drive.gearbox === undefined || gear === undefined) return drive;
      const { best: _best, ...gearbox } = drive.gearbox;
      return { ...drive, gearbox: { ...gearbox, gears: [{ ...gear, upshift: Infinity }] } };
    }),
  };
}

/**
 * Loaded up to this gross mass in kg, people and load together.
 * @param frontShare of the weight then; left out, it stays.
 */
export function loadedTo(car: Car, gross: number, frontShare: number = car.body.frontShare): Car {
  const { body } = car;
  return { ...car, body: { ...body, load: gross - body.mass - body.driver, frontShare } };
}
