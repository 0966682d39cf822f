/** One car with one piece of physics more at a time, to be timed against the bare one. All numbers are made up, and such that each is at work. */
import type { Car, Drive, Pack } from '../src/model/car.ts';

type Change = (car: Car) => Car;

const withPack =
  (change: (pack: Pack) => Partial<Pack>): Change =>
  car => ({ ...car, pack: { ...car.pack, ...change(car.pack) } });

const withUnit =
  (unit: Partial<Drive['unit']>): Change =>
  car => ({ ...car, drives: car.drives.map(drive => ({ ...drive, unit: { ...drive.unit, ...unit } })) });

const withPairs = (pairs: Pack['cell']['pairs']): Change => withPack(({ cell }) => ({ cell: { ...cell, pairs } }));

const [slow, quick] = [
  { resistance: 0.012, timeConstant: 25 },
  { resistance: 0.006, timeConstant: 2 },
];
const builds = withUnit({ torqueRise: 0.15 });
const falls = withUnit({ powerAtTop: 0.85 });
const warms = withUnit({
  heat: { capacity: 12_000, cooling: 150, derateAt: 393.15, derateRange: 30, continuousShare: 0.5 },
});
const warmPack = withPack(() => ({
  heat: { capacity: 90_000, cooling: 40, derateAt: 323.15, derateRange: 10, resistanceActivation: 2400 },
}));
const budget = withPack(({ maxCurrent, maxChargeCurrent }) => ({
  pulses: { time: 10, continuous: 0.5 * maxCurrent, continuousCharge: 0.5 * maxChargeCurrent },
}));
const sheds: Change = car => ({
  ...car,
  body: { ...car.body, track: 1.3, frontRollShare: 0.6 },
  drives: car.drives.map(drive => ({ ...drive, liveAxle: { ratio: 4 } })),
});

/** Nothing but what every car has: no polarisation either. */
export const bare = withPairs([]);

export const ADDED: { readonly [name: string]: Change } = {
  'polarisation, one pair': withPairs([slow]),
  'polarisation, two pairs': withPairs([slow, quick]),
  'torque that builds up': builds,
  'power that falls with speed': falls,
  'heat of motor and inverter': warms,
  'heat of the pack': warmPack,
  'budget of current': budget,
  'live axle': sheds,
  'all of it': car =>
    [withPairs([slow, quick]), builds, falls, warms, warmPack, budget, sheds].reduce((whole, add) => add(whole), car),
};
