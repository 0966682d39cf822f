/** What a trail says of a run must be what the run itself says: its energies, its charge, its way. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nth } from '../../../src/columns.ts';
import { meanOf } from '../../../src/model/duty/track.ts';
import { chargeIntegral, chargeOnce } from '../../../src/runs/charge/run.ts';
import { addCharge } from '../../../src/runs/charge/trail.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { addStretch, wheelsOf } from '../../../src/runs/trail/forward.ts';
import { Trail } from '../../../src/runs/trail/trail.ts';
import { ledgerOf } from '../../../src/runs/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { arbitraryCar, testDay, testCar } from '../../cars.ts';
import { beginning, hilly, stop, trip } from '../../trips.ts';

/** J: the integral of the product of two tracks at the Gauss-Legendre points. */
function energyOf(
  trail: Trail,
  of: (row: { pack: number; voltage: number; consumers: number; front: number; rear: number }) => number,
): number {
  const keys = ['pack', 'voltage', 'consumers', 'front', 'rear'] as const;
  const tracks = keys.map(key => trail.track(key));
  const lengths = trail.lengths();
  let sum = 0;
  for (let i = 0; i < trail.pieces; i++) {
    for (const share of [0.5 - Math.sqrt(3) / 6, 0.5 + Math.sqrt(3) / 6]) {
      const [pack = 0, voltage = 0, consumers = 0, front = 0, rear = 0] = tracks.map(
        ({ from, to }) => nth(from, i) + share * (nth(to, i) - nth(from, i)),
      );
      sum += 0.5 * nth(lengths, i) * of({ pack, voltage, consumers, front, rear });
    }
  }
  return sum;
}

const power = ({ pack, voltage }: { pack: number; voltage: number }): number => pack * voltage;

describe('the trail of a trip', () => {
  it('has the energy, the way and the time of the trip, and currents that add up', () => {
    fc.assert(
      fc.property(arbitraryCar, fc.constantFrom(0, 0.04), (car, steepest) => {
        const way = trip(hilly(beginning('udds', 400), steepest), stop(300), beginning('us06', 200));
        const run = travelOnce(car, way, { surroundings: testDay, trail: true });
        fc.pre(run.status === 'done' && run.trail !== null);
        const trail = run.trail ?? new Trail();
        const energy = run.legs.reduce((sum, leg) => sum + leg.energy, 0);
        const through = energyOf(trail, row => Math.abs(power(row)));
        expect(Math.abs(energyOf(trail, power) - energy) / through).toBeLessThan(1e-6);
        const rest = energyOf(
          trail,
          ({ pack, consumers, front, rear, voltage }) => Math.abs(pack - consumers - front - rear) * voltage,
        );
        expect(rest / through).toBeLessThan(1e-6);
        const lasted = trail.lengths().reduce((a, b) => a + b, 0);
        expect(lasted).toBeCloseTo(run.duration, 6);
        expect(meanOf(trail.track('speed')) * lasted).toBeCloseTo(run.distance, 3);
      }),
      { numRuns: 12, endOnFailure: true },
    );
  });

  it('takes nothing from the run: every number is the same with it and without', () => {
    fc.assert(
      fc.property(arbitraryCar, car => {
        const way = trip(beginning('us06', 150));
        const [plain, traced] = [false, true].map(trail =>
          travelOnce(car, way, { surroundings: testDay, trail, untilEmpty: false }),
        );
        expect(traced?.follower.sums).toEqual(plain?.follower.sums);
        expect(traced?.distance).toBe(plain?.distance);
        expect(traced?.follower.state()).toEqual(plain?.follower.state());
      }),
      { numRuns: 12, endOnFailure: true },
    );
  });

  it('of a range ends where the range ends', () => {
    const car = { ...testCar, pack: { ...testCar.pack, series: testCar.pack.series, parallel: 6 } };
    const run = travelOnce(car, trip(beginning('udds', 300)), { surroundings: testDay, untilEmpty: true, trail: true });
    expect(run.status).toBe('empty');
    const trail = run.trail ?? new Trail();
    const energy = run.legs.reduce((sum, leg) => sum + leg.energy, 0);
    expect(energyOf(trail, power) / energy).toBeCloseTo(1, 6);
    const lasted = trail.lengths().reduce((a, b) => a + b, 0);
    expect(Math.abs(lasted - run.duration)).toBeLessThan(1e-6 * lasted);
  });
});

describe('the trail of a launch', () => {
  it('has the energy of its ledger', () => {
    fc.assert(
      fc.property(arbitraryCar, car => {
        const run = launchOnce(car, { surroundings: testDay, tolerance: 1e-8, stop: '100_km_h' });
        fc.pre(run.solution.status !== 'failed');
        const ledger = ledgerOf(run);
        const { times, nodes } = run.solution;
        const trail = new Trail();
        addStretch(trail, run.plant, wheelsOf(car), run.solution, [nth(times, 0), nth(times, nodes - 1)]);
        const taken =
          (ledger.in['out of the cells'] ?? 0) - (ledger.out['pack heat'] ?? 0) - (ledger.stored['polarisation'] ?? 0);
        expect(Math.abs(energyOf(trail, power) / taken - 1)).toBeLessThan(1e-4);
      }),
      { numRuns: 20, endOnFailure: true },
    );
  });
});

describe('the trail of a charge', () => {
  it('has the energy into the pack, from the wall, and through the chargers', () => {
    const supply = { voltage: 230, current: 16, phases: 1 };
    const run = chargeOnce(testCar, {
      surroundings: testDay,
      supply,
      temperature: 293.15,
      from: 0.2,
      to: 0.95,
    } as never);
    const trail = new Trail();
    addCharge(trail, run);
    const { integrals } = run.end;
    const wall = chargeIntegral(integrals, 'wall');
    const lasted = trail.lengths().reduce((a, b) => a + b, 0);
    expect(meanOf(trail.track('wall')) * lasted).toBeCloseTo(wall, -1);
    const into = wall - chargeIntegral(integrals, 'charger') - chargeIntegral(integrals, 'overhead');
    expect(-energyOf(trail, power) / into).toBeCloseTo(1, 6);
  });
});
