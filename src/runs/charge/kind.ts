/** A charge as a kind of run. */
import { filler } from '../../model/fields/filler.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { completeSupply } from '../../model/pack/complete-supply.ts';
import { runKind } from '../kind.ts';
import { noFigures } from '../no-answer.ts';
import { charge, chargeFigures } from './charge.ts';
import { chargeFields } from './fields.ts';
import { chargeOutputs } from './outputs.ts';
import type { ChargeOptions } from './run.ts';

export const chargeKind = runKind<ChargeOptions>({
  kind: 'charge',
  doc: 'charging from the wall, or at a station of direct current: time from one state of charge to another, energy, range per hour, cost',
  notes: [
    'each of the chargers of the car is on one phase, and they share what a phase gives; a three-phase charger is written as three with a third of its power',
    'at the highest voltage of the pack the current falls, and charging ends when it is C/20 at the latest',
  ],
  fields: chargeFields,
  drivesTrip: false,
  atFullPedal: false,
  outputs: chargeOutputs,
  headlines: ['time', 'energy_wall'],
  intervals: ['time', 'energy_wall'],
  better: {
    time: 'low',
    energy_wall: 'low',
    efficiency: 'high',
    range_per_hour: 'high',
    cost: 'low',
    end_time: 'low',
    charge_end: 'high',
  },
  slow: false,
  read({ car, name, values, inputs }) {
    const spec: SpecOf<typeof chargeFields> = values;
    const fill = filler(name, chargeFields, values, inputs);
    const { window } = car.pack;
    const from = fill.derived('from', () => window.low);
    const to = fill.derived('to', () => window.high);
    if (from >= to) throw fill.error('to', 'is not above from');
    const supply = completeSupply(`${name}.supply`, spec.supply ?? {}, inputs);
    const temperature = fill.number('temperature');
    const packTemperature = fill.derived('packTemperature', () => temperature);
    const options: ChargeOptions = {
      from,
      to,
      supply,
      temperature,
      packTemperature,
      ...(spec.consumption !== undefined && {
        consumption: {
          energy: fill.number('consumption'),
          at: fill.choice('consumptionAt') === 'pack' ? 'pack' : 'wall',
        },
      }),
      ...(spec.price !== undefined && { price: fill.number('price') }),
    };
    return { car, options };
  },
  run: ({ car, options }, effort) => charge(car, options, effort),
  createAnswer:
    () =>
    ({ car, options }) => {
      const charged = chargeFigures(car, options);
      return 'none' in charged ? noFigures(chargeOutputs, charged.none) : charged;
    },
});
