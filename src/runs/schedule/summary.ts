/** What a trip says in single figures; for `drive` and `range` alike. */
import { lastOf, named, nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { R } from './record.ts';
import type { FollowRecord } from './record.ts';
import { limiterOf } from '../../model/forward/limiter.ts';
import { numbersOf } from './series.ts';
import { wants } from '../kind.ts';
import type { Wanted } from '../kind.ts';
import type { Ledger } from '../result.ts';
import { numbers } from '../series.ts';
import { recordOf } from './trip.ts';
import type { TravelRun } from './trip.ts';
import { wallEnergy } from './wall-energy.ts';

/** J in a US gallon of petrol: 33.705 kWh (fueleconomy.gov, 40 CFR 600 from memory). */
export const GALLON = 33.705 * 3.6e6;

/** m3. */
const US_GALLON = 3.785411784e-3;
const MILE = 1609.344;

export interface TravelFigures {
  readonly values: { readonly [key: string]: number | string | null };
  readonly reasons: { readonly [key: string]: string };
}

/** Figures for which the pack is charged again. */
export const AT_THE_WALL = ['consumption_wall', 'mpg_equivalent', 'litres_equivalent'] as const;

/** Energies, consumption and what was missed. */
export function energyFigures(run: TravelRun, car: Car, ledger: Ledger): TravelFigures {
  const { legs, distance } = run;
  const values: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put = (keys: readonly string[], value: number | null, reason: string): void => {
    for (const key of keys) {
      values[key] = value;
      if (value === null) reasons[key] = reason;
    }
  };
  const total = (key: 'energy' | 'returned' | 'brakes'): number => legs.reduce((sum, leg) => sum + leg[key], 0);
  const energy = total('energy');
  values['distance'] = distance;
  values['time'] = run.time;
  values['energy'] = energy;
  values['returned'] = total('returned');
  values['brakes'] = total('brakes');
  const plugged = run.plugs.reduce((sum, { wall }) => sum + wall, 0);
  put(['energy_plugged'], run.plugs.length > 0 ? plugged : null, 'no stop of the trip has a plug');
  put(['mean_speed'], run.time > 0 ? distance / run.time : null, 'nothing was driven');
  put(['consumption'], distance > 0 ? energy / distance : null, 'nothing was driven');
  const { share, why } = recovered(run, car, ledger);
  put(['braking_recovered'], share, why);
  put(
    ['auxiliaries_share'],
    energy > 0 ? named(ledger.out, 'auxiliaries') / energy : null,
    'nothing came out of the pack on the whole',
  );
  return { values, reasons };
}

/** What is drawn from the wall, by another run that charges; nothing where none of it is wanted. */
export function wallFigures(run: TravelRun, car: Car, wanted: Wanted): TravelFigures {
  if (!wants(wanted, AT_THE_WALL)) return { values: {}, reasons: {} };
  const end = run.legs.at(-1)?.charge ?? run.charge;
  const wall = run.distance > 0 ? drawn(run, car, end) : null;
  const reason =
    end >= run.charge && run.plugs.length === 0
      ? 'the pack was not discharged'
      : 'the chargers on board do not charge this pack';
  const per = wall === null ? null : wall / run.distance;
  const values = {
    consumption_wall: per,
    mpg_equivalent: per === null ? null : GALLON / (per * MILE),
    litres_equivalent: per === null ? null : (per * 1e5 * US_GALLON * 1000) / GALLON,
  };
  return { values, reasons: per === null ? Object.fromEntries(AT_THE_WALL.map(key => [key, reason])) : {} };
}

/** J from the wall at the stops, and what puts the charge at the end back to that at the start; null where it can not be put back. */
function drawn({ plugs, charge, follower }: TravelRun, car: Car, end: number): number | null {
  if (plugs.length === 0) return wallEnergy(car, end, charge);
  const at = plugs.reduce((sum, { wall }) => sum + wall, 0);
  const last = follower.pack.charge;
  if (last === charge) return at;
  const rest = wallEnergy(car, Math.min(last, charge), Math.max(last, charge));
  return rest === null ? null : at + (last < charge ? rest : -rest);
}

/** Share of the energy out of the cells below which braking is round-off. */
const ROUND_OFF = 1e-9;

/**
 * Of what slowing down gave, the share that reached the pack: brakes took the rest, and the way back its losses. Where all of it is
 * fed to consumers at once none reaches the pack, and that is no answer to how much braking recovers.
 */
function recovered(run: TravelRun, car: Car, ledger: Ledger): { readonly share: number | null; readonly why: string } {
  const back = run.legs.reduce((sum, leg) => sum + leg.returned, 0);
  const given = back + named(ledger.out, 'brakes');
  const nothing = ROUND_OFF * Math.abs(ledger.in['out of the cells'] ?? 0);
  if (!(given > nothing)) return { share: null, why: 'the car never slowed down by its drive or brakes' };
  const brings = car.drives.some(({ regeneration }) => regeneration.share > 0);
  return back <= nothing && brings && named(ledger.out, 'auxiliaries') > 0
    ? {
        share: null,
        why: 'what slowing down gives feeds lights, pumps and heating at once: none of it reaches the pack',
      }
    : { share: back / given, why: '' };
}

/** What the record of the trip says. */
export function recordFigures(run: TravelRun, unitAxle: number): { readonly [key: string]: number | string | null } {
  const record = recordOf(run);
  const trace = numbersOf(record, unitAxle);
  const most = (key: string): number => numbers(trace, key).reduce((a, b) => Math.max(a, b), -Infinity);
  const least = (key: string): number => numbers(trace, key).reduce((a, b) => Math.min(a, b), Infinity);
  return {
    max_speed: most('speed_m_s'),
    min_voltage: least('pack_voltage_V'),
    max_current: most('pack_current_A'),
    max_power: most('pack_power_W'),
    ...warmthFigures(run, unitAxle),
    limiter: longestLimiter(record),
  };
}

/** How warm pack and drive unit get. */
export function warmthFigures(run: TravelRun, unitAxle: number): { readonly [key: string]: number } {
  const record = recordOf(run);
  const pack = record.column(R.pack);
  return {
    pack_temperature: greatest(pack),
    pack_temperature_end: lastOf(pack),
    unit_temperature: greatest(record.column(unitAxle === 0 ? R.unitFront : R.unitRear)),
  };
}

function greatest(column: Float64Array): number {
  let most = -Infinity;
  for (const value of column) most = Math.max(most, value);
  return most;
}

function longestLimiter(record: FollowRecord): string {
  const length = record.column(R.length);
  const modes = new Map<number, number>();
  for (const [i, mode] of record.column(R.mode).entries()) {
    if (mode >= 0) modes.set(mode, (modes.get(mode) ?? 0) + nth(length, i));
  }
  const time = new Map<string, number>();
  for (const [mode, seconds] of modes) {
    const word = limiterOf(mode);
    if (word !== 'driver') time.set(word, (time.get(word) ?? 0) + seconds);
  }
  const none: readonly [string, number] = ['nothing', -Infinity];
  return [...time].reduce((most, each) => (each[1] > most[1] ? each : most), none)[0];
}
