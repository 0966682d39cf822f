/** Logs of launches of a car that is known, through a receiver that averages and is not perfect. All invented. */
import { completeCar } from '../../src/model/complete.ts';
import { type LaunchLog, readLaunchLog } from '../../src/fit/launch/launch-log.ts';
import { createTold } from '../../src/fit/launch/modelled.ts';
import { type LaunchParameter, PARAMETER_KINDS } from '../../src/fit/launch/parameters.ts';
import type { Car, Surroundings } from '../../src/model/car.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import { normals } from './coast-logs.ts';

export const LEVEL: Surroundings = {
  temperature: 293.15,
  altitude: 0,
  humidity: 0.5,
  wind: 0,
  slope: 0,
  surface: 'dry',
};

/** A light car of 60 kW at the rear axle that spins its tyres for a moment; `more` power makes that longer. */
export function launchCar(peakPower = 60_000, peakTorque = 160): Car {
  const cell = shippedPart('cell', 'cell_nmc_60ah')?.values ?? {};
  const { car } = completeCar({
    mass: 1155,
    tyres: { radius: 0.29 },
    drive: { axle: 'rear', ratio: 8.5, unit: { peakTorque, peakPower, maxSpeed: 1200 } },
    pack: { cell, series: 96, parallel: 3 },
  });
  return car;
}

export interface Drag {
  /** Rows a second, m/s of white noise, s that the receiver averages over. */
  readonly rate: number;
  readonly noise: number;
  readonly over: number;
  /** km/h. */
  readonly to: number;
  /** What the bus tells beside: white noise of the tread of the driven wheels in m/s and of the power in W; s by which it is late. */
  readonly bus?: {
    readonly wheel?: number;
    readonly power?: number;
    readonly late: number;
    /** Tread as the bus has it over the true one, and share by which the meter reads too much. */
    readonly tread: number;
    readonly meter: number;
  };
}

/** One launch with the pedal down at about 2 s, as the file of a logger says it. */
export function loggedLaunch(
  car: Car,
  truth: { readonly [key in LaunchParameter]?: number },
  { rate, noise, over, to, bus }: Drag,
  normal: () => number,
  day: Surroundings = LEVEL,
): string {
  const real = Object.entries(truth).reduce(
    (changed, [key, value]) => PARAMETER_KINDS[key as LaunchParameter].apply(changed, value),
    car,
  );
  const told = createTold(to / 3.6 + 3, { over })(real, day);
  const zero = 2 + 0.03 * normal();
  const time: number[] = [];
  const columns: { [name: string]: number[] } = { speed_km_h: [] };
  const put = (name: string, value: number): void => void (columns[name] ??= []).push(value);
  for (let k = 0; k < 60 * rate; k++) {
    const t = k / rate;
    const v = told.speed(t - zero);
    time.push(t);
    put('speed_km_h', Number((3.6 * Math.max(0, v + (v > 0 ? noise : noise / 3) * normal())).toFixed(2)));
    if (bus?.wheel !== undefined) {
      const turns = told.wheel(t - zero - bus.late);
      put('wheel_speed_km_h', Number((3.6 * Math.max(0, bus.tread * turns + bus.wheel * normal())).toFixed(3)));
    }
    if (bus?.power !== undefined) {
      const power = (1 + bus.meter) * told.power(t - zero - bus.late) + bus.power * normal();
      put('pack_power_kW', Number((power / 1000).toFixed(3)));
    }
    if (v > to / 3.6 + 1) break;
  }
  const names = Object.keys(columns);
  const rows = time.map((t, i) => [Number(t.toFixed(3)), ...names.map(name => columns[name]?.[i] ?? '')].join(','));
  return `${['time_s', ...names].join(',')}\n${rows.join('\n')}\n`;
}

/** The same as a fit takes it. */
export function launchLog(...asked: Parameters<typeof loggedLaunch>): LaunchLog {
  const [car] = asked;
  return readLaunchLog(loggedLaunch(...asked), { driven: ['rear'], radius: car.tyres.rear.radius });
}

export { normals };
