/** A stop at which the car hangs on a plug: the pack is charged as a charge by itself charges it, and all else cools down. */
import type { Plug, Stop } from '../../cycles/trip.ts';
import type { Car } from '../../model/car.ts';
import { recovered } from '../../model/pack/balance.ts';
import { whyNot } from '../charge/charge.ts';
import { chargeIntegral, chargeOnce } from '../charge/run.ts';
import { addCharge } from '../charge/trail.ts';
import { paceTimes, percent } from '../charge/series.ts';
import type { Trail } from '../trail/trail.ts';
import type { Follower } from './follower.ts';
import { soak } from './soak.ts';

/** What a stop with a plug came to. */
export interface Plugged {
  /** s since the trip began at which it begins, that it lasts, and that the car is charged. */
  readonly start: number;
  readonly seconds: number;
  readonly charging: number;
  /** State of charge before and after. */
  readonly from: number;
  readonly to: number;
  /** J from the wall, into the terminals of the pack, and what became of that: heat of the pack. */
  readonly wall: number;
  readonly terminals: number;
  readonly heat: number;
  /** What set the pace for the longest time; '' where nothing was charged. */
  readonly pace: string;
  /** Why nothing was charged; '' where it was, or needed not be. */
  readonly reason: string;
}

/** This close to what is wished for nothing is charged. */
const THERE = 1e-6;

/**
 * @param start s since the trip began. @param trail on which it is left.
 * @returns what it came to, and J of polarisation that became heat after the charge.
 */
export function plugIn(
  follower: Follower,
  { seconds }: Stop,
  plug: Plug,
  cabin: { inside: number },
  car: Car,
  start: number,
  trail: Trail | null,
): { readonly plugged: Plugged; readonly settled: number } {
  const { moving } = follower.inner.following;
  const { charge, polarisation, pack, spent = [0, 0] } = follower.state();
  const to = plug.to ?? car.pack.window.high;
  const options = {
    from: charge,
    to,
    supply: plug.supply,
    temperature: moving.car.air,
    packTemperature: pack,
    polarisation,
    ...(!plug.waits && { seconds }),
  };
  const reason = to - charge > THERE ? whyNot(car, options) : '';
  if (reason !== '' || !(to - charge > THERE)) {
    const none = { charging: 0, from: charge, to: charge, wall: 0, terminals: 0, heat: 0, pace: '', reason };
    trail?.rest(seconds, follower.pack.emf);
    const settled = soak(follower, seconds, cabin, car);
    return { plugged: { start, seconds, ...none }, settled };
  }
  const run = chargeOnce(car, options);
  const { time, states, integrals } = run.end;
  soak(follower, time, cabin, car);
  follower.setState({
    ...follower.state(),
    charge: run.end.charge,
    polarisation: run.plant.polarisation(states),
    pack: run.plant.temperatureState < 0 ? pack : (states[run.plant.temperatureState] ?? pack),
    spent: recovered(moving.pack, ...spent, time),
  });
  if (trail !== null) addCharge(trail, run);
  const rest = Math.max(0, seconds - time);
  trail?.rest(rest, follower.pack.emf);
  const settled = soak(follower, rest, cabin, car);
  const wall = chargeIntegral(integrals, 'wall');
  const plugged = {
    start,
    seconds: time + rest,
    charging: time,
    from: charge,
    to: run.end.charge,
    wall,
    terminals:
      wall -
      chargeIntegral(integrals, 'charger') -
      chargeIntegral(integrals, 'overhead') -
      chargeIntegral(integrals, 'heater'),
    heat: chargeIntegral(integrals, 'packHeat'),
    pace: [...paceTimes(run)].reduce((most, each) => (each[1] > most[1] ? each : most), ['', -1] as const)[0],
    reason: '',
  };
  return { plugged, settled };
}

/** What a stop with a plug came to, as an event. */
export function plugWords({ from, to, wall, charging, pace, reason }: Plugged): string {
  if (reason !== '') return `plugged in and not charged: ${reason}`;
  if (charging === 0) return `plugged in with ${percent(from)}, as much as is wished`;
  const hours = (charging / 3600).toPrecision(3);
  return `plugged in: ${(wall / 3.6e6).toPrecision(3)} kWh from the wall, from ${percent(from)} to ${percent(to)} in ${hours} h, paced by ${pace}`;
}

/** Stops at which the pack takes nothing, by their reasons. */
export function plugWarnings(plugs: readonly Plugged[]): readonly string[] {
  const times = new Map<string, number>();
  for (const { reason } of plugs) if (reason !== '') times.set(reason, (times.get(reason) ?? 0) + 1);
  return [...times].map(([reason, count]) => `At ${count} of ${plugs.length} plugs nothing is charged: ${reason}`);
}
