/** Cars of an open data set, as far as it tells, completed as a user's car is. Anonymous: a record is the row of the sheet. */
import { completeCar, completeSurroundings } from '../../src/model/complete.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { passing } from './launched.ts';
import data from './data/published-times.json' with { type: 'json' };

export interface PublishedCar {
  readonly record: number;
  /** s, to 100 km/h: printed by the maker, the least a car of this power and mass can take, and by axlewatt. */
  readonly published: number;
  readonly bound: number;
  readonly computed: number;
}

/** kg. */
const DRIVER = 75;
/** rad/s at the printed top speed; the data do not say it. */
const TOP_MOTOR_SPEED = (12_000 * 2 * Math.PI) / 60;

type Row = (typeof data.cars)[number];

function secondsTo100(row: Row): number {
  const radius = 0.31;
  const ratio = (TOP_MOTOR_SPEED * radius) / (row.top_speed_km_h / 3.6);
  const cell = shippedPart('cell', 'cell_nmc_60ah')?.values ?? {};
  const { car } = completeCar({
    mass: row.mass_kg,
    driver: DRIVER,
    wheelbase: row.wheelbase_cm / 100,
    height: row.height_cm / 100,
    ...(row.width_cm === null ? {} : { width: row.width_cm / 100 }),
    // Cars of today: less drag than the converted cars of the defaults.
    dragCoefficient: 0.29,
    tyres: { radius },
    drive: {
      axle: row.drive === 'rear' ? 'rear' : 'front',
      ratio,
      unit: { peakTorque: row.peak_torque_N_m, peakPower: row.peak_power_kW * 1000 },
    },
    pack: { cell, series: 96, parallel: 3 },
  });
  return passing(car, '100_km_h', { road: completeSurroundings({}).surroundings }).time;
}

export function publishedCars(): readonly PublishedCar[] {
  return data.cars.map(row => ({
    record: row.record,
    published: row.time_to_100_km_h_s,
    bound: (0.5 * (row.mass_kg + DRIVER) * (100 / 3.6) ** 2) / (row.peak_power_kW * 1000),
    computed: secondsTo100(row),
  }));
}
