import { describe, expect, it } from 'vitest';
import { lossMap } from '../../../src/model/drive/efficiency-map.ts';
import { ratedTorque } from '../../../src/model/drive/field-weakening.ts';
import { mapCover, mapLimits } from '../../../src/model/drive/map-cover.ts';

/** The textbook motor: Larminie & Lowry, Electric Vehicle Technology Explained, constants of eq. 7.23. */
const motor = (T: number, w: number): number => 0.3 * T * T + 0.01 * w + 5e-6 * w ** 3 + 600;

const SPEED = Array.from({ length: 14 }, (_, i) => 100 * i);
const TORQUE = Array.from({ length: 16 }, (_, j) => 10 * j);

describe('whether a map covers its unit', () => {
  const power = 60e3;
  const { map } = lossMap(
    {
      voltage: [],
      speed: SPEED,
      torque: TORQUE,
      loss: SPEED.flatMap(w => TORQUE.map(T => (T * w > power ? null : motor(T, w)))),
    },
    'motor',
    350,
  );

  it('is so for the unit it was measured on', () => {
    expect(mapCover(map, { peakTorque: 150, peakPower: power, powerAtTop: 1, maxSpeed: 1300 })).toEqual({
      missing: '',
      notes: [],
    });
  });

  it('is so with a note a little beyond its edges', () => {
    const { missing, notes } = mapCover(map, { peakTorque: 160, peakPower: power, powerAtTop: 1, maxSpeed: 1400 });
    expect(missing).toBe('');
    expect(notes).toEqual([
      'above 12410 rpm, where the map ends, the loss goes on in a straight line up to 13370 rpm',
      'above 150 N m, where the map ends, the loss goes on in a straight line up to 160 N m',
    ]);
  });

  it.each([
    [
      { peakTorque: 150, peakPower: power, powerAtTop: 1, maxSpeed: 1500 },
      'ends at 12410 rpm, but the unit turns at 14320 rpm',
    ],
    [
      { peakTorque: 200, peakPower: power, powerAtTop: 1, maxSpeed: 1300 },
      'ends at 150 N m, but the unit gives 200 N m',
    ],
    [
      { peakTorque: 150, peakPower: 71e3, powerAtTop: 1, maxSpeed: 1300 },
      'ends at 120 N m at 4775 rpm, but the unit gives 142 N m there',
    ],
  ])('is not so for %j', (unit, missing) => {
    expect(mapCover(map, unit)).toEqual({ missing, notes: [] });
  });
});

describe('a map that is measured up to a power that falls', () => {
  const unit = { peakTorque: 300, peakPower: 90e3, maxSpeed: 1100, powerAtTop: 0.7 };
  const torque = [0, 50, 100, 150, 200, 250, 300];
  const speed = [0, 150, 300, 500, 700, 900, 1100];
  const able = (w: number): number => ratedTorque(unit, Math.max(w, 1));
  // One column beyond what the unit can do: what it can do lies between two points of the map.
  const loss = speed.flatMap(w => torque.map(T => (T - 50 >= able(w) ? null : 500 + 0.1 * T * T)));
  const { map } = lossMap({ voltage: [], speed, torque, loss }, 'motor', 350);

  it('covers the unit, and not one whose power does not fall', () => {
    expect(mapCover(map, unit).missing).toBe('');
    expect(mapCover(map, { ...unit, peakPower: 140e3, powerAtTop: 1 }).missing).not.toBe('');
  });

  it('still covers what is drawn within its limits', () => {
    const most = mapLimits(map, unit);
    expect(most.powerAtTop).toBeGreaterThanOrEqual(unit.powerAtTop);
    expect(most.peakPower).toBeGreaterThanOrEqual(unit.peakPower);
    const drawn = { ...unit, peakPower: most.peakPower, powerAtTop: most.powerAtTop };
    expect(mapCover(map, drawn).missing).toBe('');
  });
});
