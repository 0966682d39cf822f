/** One steady speed after the other: consumption and range. */
import { checkOptions, SPEED, SURROUNDINGS } from '../options.ts';
import { each, type Rules, SHARE } from '../rules.ts';
import { steadySchedule } from '../../cycles/steady.ts';
import type { Trip } from '../../cycles/trip.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { column, speedColumn } from '../column.ts';
import { inOrder } from './drive.ts';
import { hold } from '../sheet/hold-speed.ts';
import { turningSpeed } from '../overrun.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import { endsARange, rangeSettings, whyNone } from './range.ts';
import type { Ledger, Result } from '../result.ts';
import type { SteadySummary } from '../summaries/steady.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { CURRENT_KEYS, currentFigures } from '../duty/currents.ts';
import type { Trail } from '../trail/trail.ts';
import { wants } from '../kind.ts';
import type { Wanted } from '../kind.ts';
import { steadyOutputs } from './steady-outputs.ts';
import { travelLedger } from '../schedule/ledger.ts';
import { createTraveller } from '../schedule/trip.ts';
import type { TravelRun, Traveller } from '../schedule/trip.ts';
import { wallEnergy } from '../schedule/wall-energy.ts';
import { unheated } from './unheated.ts';

export interface SteadyOptions {
  readonly surroundings: Surroundings;
  /** m/s, the speed that is asked about. */
  readonly speed: number;
  /** m/s of the curve, ascending. */
  readonly speeds: readonly number[];
  /** State of charge at the start; the high end of the window where left out. */
  readonly charge?: number;
  /** Of the window of the pack, kept for the way home; default 0. */
  readonly reserve?: number;
}

/** s of one schedule; it is driven over and over. */
const STRETCH = 600;

interface Held extends Figures {
  readonly one: SteadyRun;
  readonly curve: readonly ({ readonly speed: number } & Pick<SteadyRun, 'range' | 'consumption' | 'wall'>)[];
}

/** The figures that are wanted at a steady speed; or why there is none. */
export function steadyFigures(
  car: Car,
  options: SteadyOptions,
  wanted?: Wanted,
  travel: Traveller = createTraveller(),
): Held | None {
  const wall = wants(wanted, ['consumption_wall']);
  const one = steadyRun(car, options, options.speed, travel, wall, wants(wanted, CURRENT_KEYS));
  if ('none' in one) return one;
  const speeds = wants(wanted, ['farthest_speed', 'farthest']) ? options.speeds : [];
  const curve = speeds.map(speed => {
    const run = steadyRun(car, options, speed, travel, wall);
    return { speed, ...('none' in run ? NONE : run) };
  });
  const best = curve.reduce((a, b) => (b.range > a.range ? b : a), { speed: 0, ...NONE, range: 0 });
  const summary = inOrder(
    {
      speed: options.speed,
      air_temperature: options.surroundings.temperature,
      range: one.range,
      time: one.range / options.speed,
      consumption: one.consumption,
      consumption_wall: Number.isNaN(one.wall) ? null : one.wall,
      power: one.consumption * options.speed,
      ...(one.trail !== null && currentFigures(one.trail, steadyOutputs, wanted)),
      farthest_speed: best.range > 0 ? best.speed : null,
      farthest: best.range > 0 ? best.range : null,
    },
    steadyOutputs,
    wanted,
  );
  const reasons = {
    consumption_wall: 'the chargers on board do not charge this pack',
    farthest_speed: 'the car holds none of the speeds',
    farthest: 'the car holds none of the speeds',
  };
  return { one, curve, summary, reasons };
}

/**
 * Drives at a steady speed until the pack is empty, and the same at each speed of the curve.
 * @throws SpecError for a car or options that can not be.
 */
export function steady(car: Car, options: SteadyOptions): Result<SteadySummary> {
  checkOptions(car, options, RULES, ['surroundings', 'speed', 'speeds']);
  const held = steadyFigures(car, options);
  if ('none' in held) return noAnswer('steady', steadyOutputs, held.none, held.ended);
  const { one, curve, summary, reasons } = held;
  const pick = (key: 'speed' | 'range' | 'consumption' | 'wall'): Float64Array =>
    Float64Array.from(curve, each => each[key]);
  return sound({
    kind: 'steady',
    summary,
    reasons,
    outputs: steadyOutputs,
    series: {
      speed: {
        speed_m_s: speedColumn('speed', pick('speed')),
        range_m: column('range', 'm', 'km', 'mile', pick('range')),
        consumption_J_m: column('consumption at the pack', 'J/m', 'Wh/km', 'Wh/mile', pick('consumption')),
        consumption_wall_J_m: column('consumption at the wall', 'J/m', 'Wh/km', 'Wh/mile', pick('wall')),
      },
    },
    bands: [],
    events: [],
    ledger: one.ledger,
    warnings: [
      ...unheated(car, options.surroundings),
      ...(one.late ? [heldBack(car, options, one.range / options.speed)] : []),
      ...(Math.abs(one.ledger.gap) > 1e-6
        ? [`The energy ledger does not close: ${one.ledger.gap.toExponential(1)} of it`]
        : []),
    ],
    opinion: null,
    ...(one.trail !== null && { trail: one.trail }),
  });
}

/** For how long the speed is held, and by what the car is held back then. @param seconds that it was. */
function heldBack(car: Car, { surroundings, speed, charge = car.pack.charge }: SteadyOptions, seconds: number): string {
  const { limiter } = hold({ ...car, pack: { ...car.pack, charge } }, surroundings, speed, 1.2 * seconds + 60);
  const time = seconds < 120 ? `${seconds.toFixed(0)} s` : `${(seconds / 60).toFixed(0)} minutes`;
  const by = limiter === 'driver' ? '' : ` by ${limiter}`;
  return `The car holds ${(speed * 3.6).toFixed(0)} km/h for ${time}: then it is held back${by}, before its pack is empty`;
}

const NONE = { range: Number.NaN, consumption: Number.NaN, wall: Number.NaN } as const;

interface SteadyRun {
  readonly range: number;
  readonly consumption: number;
  readonly wall: number;
  readonly ledger: Ledger;
  /** It ended because the car got slower. */
  readonly late: boolean;
  /** Null where it is not asked for. */
  readonly trail: Trail | null;
}

/** As far as the speed is held: until the pack is empty, or no longer gives it; why there is no end to that, or it is not held at all. */
function steadyRun(
  car: Car,
  options: SteadyOptions,
  speed: number,
  travel: Traveller,
  atWall: boolean,
  trail = false,
): SteadyRun | None {
  const trip: Trip = {
    title: 'steady',
    parts: [{ kind: 'leg', schedule: steadySchedule(speed, STRETCH), load: null }],
  };
  const run = travel(car, trip, { ...rangeSettings(car, options), warmTyres: true, strict: true, trail });
  const isHeld = run.distance > 0 && (run.status === 'late' || endsARange(run));
  if (!isHeld) return { none: whyNotHeld(run, car, speed), ...(run.status === 'failed' && { ended: run.reason }) };
  const energy = run.legs.reduce((sum, leg) => sum + leg.energy, 0);
  const wall = !atWall ? null : wallEnergy(car, run.legs.at(-1)?.charge ?? run.charge, run.charge);
  return {
    range: run.distance,
    consumption: energy / run.distance,
    wall: wall === null ? Number.NaN : wall / run.distance,
    ledger: travelLedger(run),
    late: run.status === 'late',
    trail: run.trail,
  };
}

function whyNotHeld(run: TravelRun, car: Car, speed: number): string {
  const is = run.status;
  if (is === 'done' || is === 'failed' || run.reason !== '') return whyNone(run);
  const kmh = (speed * 3.6).toFixed(0);
  const most = turningSpeed(car);
  if (speed <= most) return `the car does not hold ${kmh} km/h`;
  const which = car.drives.length > 1 ? 'the first of its motors' : 'its motor';
  return `the car does not hold ${kmh} km/h: above ${(most * 3.6).toFixed(0)} km/h ${which} turns faster than it may`;
}

const RULES: Rules<SteadyOptions> = {
  surroundings: SURROUNDINGS,
  speed: SPEED,
  speeds: each(SPEED),
  charge: SHARE,
  reserve: SHARE,
};
