import { describe, expect, it } from 'vitest';
import {
  evaluateLoss,
  lossMap,
  type LossMap,
  type LossTable,
  lossSurface,
  torqueTaking,
} from '../../../src/model/drive/efficiency-map.ts';

/** The textbook motor: Larminie & Lowry, Electric Vehicle Technology Explained, constants of eq. 7.23. */
const motor = (T: number, w: number): number => 0.3 * T * T + 0.01 * w + 5e-6 * w ** 3 + 600;

const SPEED = Array.from({ length: 14 }, (_, i) => 100 * i);
const TORQUE = Array.from({ length: 16 }, (_, j) => 10 * j);

function tableOf(
  speed: readonly number[],
  torque: readonly number[],
  loss: (T: number, w: number) => number | null = motor,
): LossTable {
  return { voltage: [], speed, torque, loss: speed.flatMap(w => torque.map(T => loss(T, w))) };
}

const out = new Float64Array(3);

function lossAt(map: LossMap, T: number, w: number): [loss: number, bySpeed: number, byTorque: number] {
  evaluateLoss(lossSurface(map), T, w, out);
  return [out[0]!, out[1]!, out[2]!];
}

describe('a loss map', () => {
  const { map, notes } = lossMap(tableOf(SPEED, TORQUE), 'motor', 350);

  it('gives its points back, driving and braking, and says that braking mirrors driving', () => {
    expect(lossAt(map, 40, 300)[0]).toBeCloseTo(1218, 9);
    expect(lossAt(map, 100, 400)[0]).toBeCloseTo(3924, 9);
    expect(lossAt(map, -140, 700)[0]).toBeCloseTo(8202, 9);
    expect(lossAt(map, 0, 0)[0]).toBeCloseTo(600, 9);
    expect(notes).toEqual(['braking loses what driving loses at the same torque and speed']);
  });

  it('is near the motor between its points, with slopes', () => {
    for (const [T, w] of [
      [63, 350],
      [25, 720],
      [-118, 1050],
      [134, 240],
    ] as const) {
      const [loss, bySpeed, byTorque] = lossAt(map, T, w);
      expect(Math.abs(loss / motor(T, w) - 1), `${T}, ${w}`).toBeLessThan(2e-3);
      expect(Math.abs(bySpeed - (0.01 + 15e-6 * w * w))).toBeLessThan(0.6);
      expect(Math.abs(byTorque - 0.6 * T)).toBeLessThan(0.6);
    }
  });

  it('is smooth through zero torque', () => {
    expect(lossAt(map, 0, 455)[2]).toBe(0);
    const [before, after] = [lossAt(map, -1e-7, 455), lossAt(map, 1e-7, 455)];
    expect(before[0]).toBe(after[0]);
    expect(before[2]).toBe(-after[2]);
    expect(Math.abs(after[2])).toBeLessThan(1e-6);
  });

  it('goes on in a straight line beyond its edges', () => {
    const [edge, bySpeed] = lossAt(map, 55, 1300);
    expect(lossAt(map, 55, 1400)[0]).toBeCloseTo(edge + 100 * bySpeed, 8);
    const [top, , byTorque] = lossAt(map, 150, 222);
    expect(lossAt(map, 160, 222)[0]).toBeCloseTo(top + 10 * byTorque, 8);
    expect(lossAt(map, -160, 222)[0]).toBeCloseTo(top + 10 * byTorque, 8);
  });

  it('begins at standstill and at zero torque whatever the table begins with', () => {
    const late = lossMap(tableOf([100, 200, 400], [20, 40, 80]), 'motor', 350);
    expect(late.map.speed).toEqual([0, 100, 200, 400]);
    expect(late.map.torque).toEqual([0, 20, 40, 80]);
    // a + b T^2 is what the copper loss does: exact for the textbook's motor.
    expect(lossAt(late.map, 0, 200)[0]).toBeCloseTo(motor(0, 200), 9);
    // A straight line in speed through 100 and 200 rad/s: w^3 counts as 7e4 w - 6e6.
    expect(lossAt(late.map, 40, 0)[0]).toBeCloseTo(0.3 * 1600 + 600 - 5e-6 * 6e6, 9);
    expect(late.notes).toEqual([
      'below 954.9 rpm, where the map begins, the loss goes on in a straight line down to standstill',
      expect.stringMatching(/^below 20 N m, where the map begins, .* down to zero torque, where it is 570 W to 924 W$/),
      'braking loses what driving loses at the same torque and speed',
    ]);
  });

  it('holds the lowest loss where going on would leave 0 to that loss', () => {
    const steep = lossMap(
      tableOf([100, 200], [10, 20], (T, w) => T * T * w * 0.01),
      'motor',
      350,
    );
    expect(steep.map.loss.every(loss => loss >= 0)).toBe(true);
    const falling = lossMap(
      tableOf([100, 200], [10, 20], (T, w) => 1000 - T - w),
      'motor',
      350,
    );
    expect(lossAt(falling.map, 0, 100)[0]).toBe(890);
    expect(lossAt(falling.map, 0, 0)[0]).toBe(890);
  });

  it('keeps measured braking apart from driving', () => {
    const torque = [-80, -40, -20, 20, 40, 80];
    const both = lossMap(
      tableOf([0, 200, 400], torque, (T, w) => motor(T, w) + (T < 0 ? 50 : 0)),
      'motor',
      350,
    );
    expect(both.map.torque).toEqual([-80, -40, -20, 0, 20, 40, 80]);
    expect(lossAt(both.map, -40, 200)[0]).toBeCloseTo(motor(40, 200) + 50, 9);
    expect(lossAt(both.map, 40, 200)[0]).toBeCloseTo(motor(40, 200), 9);
    expect(lossAt(both.map, 0, 200)[0]).toBeCloseTo(motor(0, 200), 9);
    expect(both.notes.some(note => note.includes('braking'))).toBe(false);
  });

  it('fills what lies beyond the torque of the unit with the loss below it, and says how much', () => {
    const power = 60e3;
    const partial = lossMap(
      tableOf(SPEED, TORQUE, (T, w) => (T * w > power ? null : motor(T, w))),
      'motor and inverter',
      350,
    );
    expect(partial.map.includes).toBe('motor and inverter');
    expect(partial.map.reach[10]).toBe(60);
    expect(lossAt(partial.map, 60, 1000)[0]).toBeCloseTo(motor(60, 1000), 9);
    expect(lossAt(partial.map, 150, 1000)[0]).toBeCloseTo(motor(60, 1000), 9);
    const missing = SPEED.flatMap(w => TORQUE.filter(T => T * w > power)).length;
    expect(partial.notes[0]).toBe(
      `${missing} points beyond the torque of the drive unit were filled with the loss of the nearest lower torque`,
    );
  });

  it('takes the layers of several voltages in proportion, the nearest beyond them', () => {
    const layers = [300, 400].flatMap(V => tableOf([0, 100], [0, 10, 20], (T, w) => V + T + w).loss);
    const table = { voltage: [300, 400], speed: [0, 100], torque: [0, 10, 20], loss: layers };
    expect(lossAt(lossMap(table, 'motor', 325).map, 10, 100)[0]).toBeCloseTo(435, 9);
    expect(lossAt(lossMap(table, 'motor', 400).map, 10, 100)[0]).toBeCloseTo(510, 9);
    const low = lossMap(table, 'motor', 250);
    expect(lossAt(low.map, 10, 100)[0]).toBeCloseTo(410, 9);
    expect(low.notes[0]).toBe('the losses are those at 300 V, the nearest to 250 V in the table');
    expect(lossAt(lossMap(table, 'motor', 500).map, 10, 100)[0]).toBeCloseTo(510, 9);
  });

  it('is plain data', () => {
    expect(JSON.parse(JSON.stringify(map))).toEqual(map);
    expect(() => lossMap(tableOf([0], [0, 10, 20]), 'motor', 1)).toThrow(RangeError);
    expect(() => lossMap(tableOf([0, 1], [-10, 0, 20]), 'motor', 1)).toThrow(RangeError);
  });
});

describe('the torque that takes a power', () => {
  const { map } = lossMap(tableOf(SPEED, TORQUE), 'motor', 350);
  const loss = lossSurface(map);

  it('is the one whose shaft power and loss make it up, from any guess', () => {
    for (const T of [0.01, 3, 40, 77.7, 149.9, 150, 180]) {
      for (const w of [1, 50, 333, 900, 1310]) {
        const power = T * w + lossAt(map, T, w)[0];
        for (const guess of [0, T, 500, Number.NaN]) {
          torqueTaking(loss, power, w, guess, out);
          expect(Math.abs(out[0]! - T), `${T} N m, ${w} rad/s`).toBeLessThan(1e-9 * (1 + T));
        }
      }
    }
  });

  it('changes with speed as its slope says', () => {
    const h = 1e-4;
    for (const [power, w] of [
      [30e3, 400],
      [50e3, 1234],
      [90e3, 555],
    ] as const) {
      torqueTaking(loss, power, w + h, 50, out);
      const after = out[0]!;
      torqueTaking(loss, power, w - h, 50, out);
      const before = out[0]!;
      torqueTaking(loss, power, w, 50, out);
      expect(Math.abs(out[1]! - (after - before) / (2 * h))).toBeLessThan(1e-5 * Math.abs(out[1]!));
    }
  });

  it('is nothing where idling takes more, and without bound where nothing takes as much', () => {
    torqueTaking(loss, 500, 300, 10, out);
    expect(Array.from(out.slice(0, 2))).toEqual([0, 0]);
    const held = lossMap(
      tableOf([0, 100], [0, 10, 20], T => 100 + Math.min(T, 10)),
      'motor',
      1,
    );
    torqueTaking(lossSurface(held.map), 5000, 0, 10, out);
    expect(Array.from(out.slice(0, 2))).toEqual([Infinity, 0]);
    torqueTaking(loss, Number.NaN, 300, 10, out);
    expect(out[0]).toBeNaN();
  });
});
