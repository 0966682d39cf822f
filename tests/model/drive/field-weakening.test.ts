import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { powerLine, ratedTorque, speedAtPower, torqueByPower } from '../../../src/model/drive/field-weakening.ts';

const unit = { peakTorque: 300, peakPower: 90e3, maxSpeed: 1100, powerAtTop: 0.7 };
const corner = 300;

describe('field weakening', () => {
  it('takes the power in a straight line from its peak at the corner to its share at the greatest speed', () => {
    const power = (w: number): number => w * torqueByPower(powerLine(unit), w);
    expect(power(corner)).toBeCloseTo(90e3, 8);
    expect(power((corner + 1100) / 2)).toBeCloseTo(0.85 * 90e3, 8);
    expect(power(1100)).toBeCloseTo(0.7 * 90e3, 8);
    expect(ratedTorque(unit, corner / 2)).toBe(300);
  });

  it('says at which speed so much power is left', () => {
    // Of the 30 % that are lost over 800 rad/s a third is lost after a third of them.
    expect(speedAtPower(unit, 0.9 * 90e3)).toBeCloseTo(corner + 800 / 3, 9);
    expect(speedAtPower({ ...unit, powerAtTop: 1 }, 0.9 * 90e3)).toBe(Infinity);
  });

  it('is constant power to the last bit where all of it is left, or where the corner is out of reach', () => {
    expect(powerLine({ ...unit, powerAtTop: 1 })).toEqual({ power: 90e3, fall: 0 });
    expect(powerLine({ ...unit, maxSpeed: 300 })).toEqual({ power: 90e3, fall: 0 });
  });

  it('leaves below the corner more than the peak torque, so that torque and power meet once', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.999, noNaN: true }),
        fc.double({ min: 0.5, max: 1, noNaN: true }),
        fc.double({ min: 0.1, max: 0.98, noNaN: true }),
        (part, powerAtTop, at) => {
          const any = { peakTorque: 200, peakPower: 200 * part * 1000, maxSpeed: 1000, powerAtTop };
          const line = powerLine(any);
          expect(torqueByPower(line, at * part * 1000)).toBeGreaterThan(200);
          expect(torqueByPower(line, 1000 * (part + at * (1 - part)))).toBeLessThan(200);
        },
      ),
    );
  });
});
