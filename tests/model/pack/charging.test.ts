import { describe, expect, it } from 'vitest';
import { CHARGE_QUADRATURES, chargeShare, chargingPlant, WALL } from '../../../src/model/pack/charging.ts';
import { CHARGE, QUADRATURES, RC } from '../../../src/model/forward/state.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { testCar, testDay } from '../../cars.ts';

const heat = { capacity: 80_000, cooling: 30, derateAt: 318, derateRange: 10, resistanceActivation: 2400 };
const pack = { ...testCar.pack, heat, health: 0.8, resistanceGrowth: 1.5 };

describe('a pack on a charger', () => {
  it('is the pack of the plant with the current turned round', () => {
    const voltage = { least: 0, greatest: Infinity };
    const feed = { power: 20_000, idle: 0, efficiency: 0.9, overhead: 150, current: Infinity, voltage };
    const charging = chargingPlant(pack, feed, 280);
    const y = charging.initial(0.4, 300);
    y[1] = 2.5;
    const mine = new Float64Array(charging.states + charging.quadratures);
    charging.rates(WALL, y, mine);

    // At rest the plant draws nothing but its auxiliaries: negative ones charge the pack.
    const still = { copper: 0, iron: 0, windage: 0, fixed: 0 };
    const car = {
      ...testCar,
      pack,
      drives: testCar.drives.map(drive => ({ ...drive, unit: { ...drive.unit, losses: still } })),
      auxiliaries: { power: -(20_000 * 0.9 - 150), converterEfficiency: 1 },
    };
    const plant = plantFor(plantParameters(car, { ...testDay, temperature: 280 }, 0));
    const x = plant.initial(0);
    x[CHARGE] = 0.4;
    x[RC] = -2.5;
    x[plant.packTemperatureState] = 300;
    const theirs = new Float64Array(plant.states + plant.quadratures);
    plant.rates(plant.modeAt(x), x, theirs);

    const integral = (name: (typeof QUADRATURES)[number]): number => theirs[plant.states + QUADRATURES.indexOf(name)]!;
    const own = (name: (typeof CHARGE_QUADRATURES)[number]): number =>
      mine[charging.states + CHARGE_QUADRATURES.indexOf(name)]!;
    expect(mine[0]! / theirs[CHARGE]!).toBeCloseTo(1, 12);
    expect(mine[1]! / -theirs[RC]!).toBeCloseTo(1, 12);
    expect(mine[charging.temperatureState]! / theirs[plant.packTemperatureState]!).toBeCloseTo(1, 12);
    expect(own('packHeat') / integral('packHeat')).toBeCloseTo(1, 12);
    expect(own('chemical') / -integral('chemical')).toBeCloseTo(1, 12);
    expect(charging.polarisationEnergy(y)).toBe(plant.polarisationEnergy(x));
  });

  it.each([
    [260, 0],
    [268.15, 0],
    [278.15, 0.5],
    [288.15, 1],
    [318, 1],
    [323, 0.5],
    [330, 0],
  ])('at %d K takes %d of its greatest current', (temperature, share) => {
    expect(chargeShare(pack, temperature)).toBeCloseTo(share, 12);
    if (temperature > 300) expect(chargeShare(testCar.pack, temperature)).toBe(1);
  });
});
