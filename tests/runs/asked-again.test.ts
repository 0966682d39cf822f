/** A car is answered to the last bit as before, whatever car was asked about between: memory that is kept in a module tells nothing of the last one. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { completeCar } from '../../src/model/complete.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { RUN_KINDS } from '../../src/runs/kinds.ts';
import type { Asked, RunKind, RunValues } from '../../src/runs/kind.ts';
import { arbitraryBuild } from '../cars.ts';
import { beginning, trip } from '../trips.ts';

const way = trip(beginning('us06', 300));

const SAID: { readonly [kind: string]: RunValues } = {
  launch: { to: 25 },
  repeat: { times: 2, to: 15 },
  steady: { speed: 20 },
  coast: { in: 'gear', from: 20 },
  standard: { standard: 'hwfet' },
};

/** Pairs of random cars. */
const PAIRS: { readonly [kind: string]: number } = { launch: 4, coast: 4, charge: 4, drive: 3 };

const unit = { peakTorque: 250, peakPower: 90_000, referenceVoltage: 330, maxSpeed: 1100 };
const cell = shippedPart('cell', 'cell_nmc_60ah')!.values;
const built = (drive: object): Asked['car'] =>
  completeCar({
    mass: 1100,
    tyres: { radius: 0.3 },
    drive: { axle: 'rear', unit, ratio: 8, ...drive },
    pack: { cell, series: 92, parallel: 1 },
  }).car;

function figures(kind: RunKind, car: Asked['car']): unknown {
  const question = {
    name: 'run',
    carName: 'car',
    car,
    values: SAID[kind.kind] ?? {},
    trip: kind.drivesTrip ? way : null,
  };
  const { summary, reasons } = kind.createAnswer()({ ...question, inputs: [] });
  return { summary, reasons };
}

it.each(RUN_KINDS.map(kind => [kind.kind, kind] as const))(
  'a %s of a car is the same after another car was asked about',
  { timeout: 120_000 },
  (name, kind) => {
    const same = fc.property(arbitraryBuild, arbitraryBuild, (one, other) => {
      const before = figures(kind, one);
      figures(kind, other);
      expect(figures(kind, one)).toStrictEqual(before);
    });
    fc.assert(same, { numRuns: PAIRS[name] ?? 1 });
    // What the front axle of the second was at stayed where cuts are looked for in a drive of the first.
    const [rear, both] = [
      built({}),
      built({ axle: 'both', frontTorqueShare: 0.4, unit: { ...unit, peakTorque: 500 } }),
    ];
    const before = figures(kind, rear);
    figures(kind, both);
    expect(figures(kind, rear)).toStrictEqual(before);
  },
);
