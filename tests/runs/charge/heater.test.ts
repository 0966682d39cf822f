/** A pack that is heated while it hangs on a plug. */
import { describe, expect, it } from 'vitest';
import { charge } from '../../../src/runs/charge/charge.ts';
import type { Pack } from '../../../src/model/car.ts';
import { testCar } from '../../cars.ts';

const heat = { capacity: 80_000, cooling: 10, derateAt: 318, derateRange: 10, resistanceActivation: 0 };
const at = (pack: Partial<Pack>, temperature = 258.15, current = 16) =>
  charge(
    { ...testCar, pack: { ...testCar.pack, heat, ...pack } },
    { from: 0.2, to: 0.5, supply: { voltage: 230, current, phases: 1 }, temperature },
  );
const heater = { power: 1000, until: 285.15 };
const { none, full } = testCar.pack.chargeCold;

describe('a heater in the pack', () => {
  it('warms it until it takes a current: the time is that of one lump, C dT/dt = P - k (T - air)', () => {
    const result = at({ heater });
    expect(at({}).reasons['time']).toContain('too cold');
    // From the air to where a thousandth of the current flows.
    const rise = none + 1e-3 * (full - none) - 258.15;
    const wait = -(heat.capacity / heat.cooling) * Math.log(1 - (rise * heat.cooling) / heater.power);
    const begins = result.events.find(({ what }) => what.includes('cold'));
    expect(begins?.time).toBeCloseTo(wait, 4);
    expect(result.summary['time']).toBeGreaterThan(wait);
    expect(result.events[0]?.what).toBe('plugged in, paced by pack heater');
  });

  it('is fed from the wall, and closes its ledger', () => {
    const result = at({ heater });
    expect(result.ledger.out['pack heater']).toBeGreaterThan(0);
    expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-9);
    expect(result.opinion?.agrees).toBe(true);
    const [warm, cold] = [at({}, 290), result];
    expect(cold.summary['energy_wall']).toBeGreaterThan(
      (warm.summary['energy_wall'] as number) + (result.ledger.out['pack heater'] ?? 0),
    );
    expect(cold.summary['energy_stored'] as number).toBeCloseTo(warm.summary['energy_stored'] as number, -2);
  });

  it('stays off in a pack that is warm enough, to the last bit', () => {
    expect(at({ heater }, 290).summary).toEqual(at({}, 290).summary);
  });

  it('says why it does not help: too weak for the cold, or the socket for it', () => {
    expect(at({ heater: { ...heater, power: 50 } }, 243.15).reasons['time']).toContain(
      'the heater does not get the pack warm enough',
    );
    expect(at({ heater: { ...heater, power: 5000 } }).reasons['time']).toContain(
      'no more than the heater of the pack and charging itself use',
    );
  });
});
