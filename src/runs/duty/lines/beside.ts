/** What else the runs ask for: of chargers, of the 12 V side, of cooling; and a stop. */
import * as elementary from '../../../elementary.ts';
import type { Car } from '../../../model/car.ts';
import { loadedMass } from '../../../model/body/loaded-mass.ts';
import { durationOf, extremesOf, meanOf } from '../../../model/duty/track.ts';
import { stop } from '../../../model/duty/stop.ts';
import { amperes, kilowattHours, output, power, share } from '../../output.ts';
import type { Output } from '../../result.ts';
import type { Said } from '../line.ts';
import { greatestMean, worstOf } from '../runs.ts';
import type { Flow, NamedRun } from '../runs.ts';

const watts = (label: string, doc: string): Output => output(label, 'W', 'W', 'W', doc);

/** @param flows of the charger. @param limits A of its sheet, direct and in a phase. */
export function chargerLines(
  flows: readonly Flow[],
  runs: readonly NamedRun[],
  limits: { readonly direct: number | undefined; readonly phase: number | undefined },
): readonly Said[] {
  const most = worstOf(flows, ({ instant }) => instant);
  if (most === null) return [];
  const phase = worstOf(
    runs.flatMap(({ name, result }) => {
      const amps = result.summary['peak_phase_current'];
      return typeof amps === 'number' ? [{ run: name, amps }] : [];
    }),
    ({ amps }) => amps,
  );
  return [
    {
      key: 'charger_current',
      part: 'charger',
      output: amperes('greatest direct current', 'into the pack and for what is drawn beside it'),
      value: most.instant,
      run: most.run,
      limit: limits.direct ?? null,
    },
    ...(phase === null
      ? []
      : [
          {
            key: 'charger_phase_current',
            part: 'charger',
            output: amperes('greatest current in a phase', 'from the wall'),
            value: phase.amps,
            run: phase.run,
            limit: limits.phase ?? null,
          },
        ]),
  ];
}

export function converterLine({ auxiliaries }: Car, limit: number | undefined): Said {
  return {
    key: 'converter_power',
    part: 'converter',
    output: watts('mean power on the 12 V side', 'lights, pumps and controls as the car says'),
    value: auxiliaries.power,
    limit: limit ?? null,
    note: 'the same over 60 s and for ever: these runs know no switching of consumers; heating of the cabin hangs on the pack',
  };
}

/** s over which coolant is looked at. Common practice, no source. */
const COOLANT = 600;

export function coolantLine(runs: readonly NamedRun[], limit: number | undefined): Said | null {
  const worst = worstOf(
    runs
      .map(({ name, trail }) => ({ run: name, track: trail.track('heat') }))
      .filter(({ track }) => extremesOf(track).greatest > 0)
      .map(({ run, track }) => ({
        run,
        mean: greatestMean(track, COOLANT),
        whole: meanOf(track),
        lasts: durationOf(track),
      })),
    ({ mean }) => mean,
  );
  if (worst === null) return null;
  return {
    key: 'coolant_heat',
    part: 'cooling',
    output: power(
      'heat of the drive units',
      'greatest mean over 10 min, inverters among them; a shorter run has nothing before and after it',
    ),
    value: worst.mean,
    run: worst.run,
    limit: limit ?? null,
    note: `mean of the whole run of ${Math.round(worst.lasts)} s ${(worst.whole / 1000).toFixed(2)} kW`,
  };
}

/** @param speed m/s. @param deceleration m/s2. */
export function brakeLines(car: Car, speed: number, deceleration: number): readonly Said[] {
  const { body, tyres, drives } = car;
  const rotors = drives.reduce((sum, { axle, unit, ratio, gearbox }) => {
    const whole = ratio * (gearbox?.gears.at(-1)?.ratio ?? 1);
    return sum + unit.inertia * elementary.pow(whole / tyres[axle].radius, 2);
  }, 0);
  const wheels =
    (2 * tyres.front.inertia) / elementary.pow(tyres.front.radius, 2) +
    (2 * tyres.rear.inertia) / elementary.pow(tyres.rear.radius, 2);
  const mass = loadedMass(body);
  const found = stop({
    mass,
    turning: wheels + rotors,
    frontShare: body.frontShare,
    wheelbase: body.wheelbase,
    cgHeight: body.cgHeight,
    speed,
    deceleration,
  });
  const part = 'brakes';
  const from = `from ${Math.round(speed * 3.6)} km/h at ${deceleration} m/s²`;
  const ask = 'no verdict: a qualified person judges the brakes at the new mass';
  if (found === null)
    return [
      {
        key: 'brake_energy',
        part,
        output: kilowattHours(`energy of a stop ${from}`, 'of the whole motion'),
        value: null,
        verdict: 'figure',
        note: 'at that deceleration the rear wheels lift off',
      },
    ];
  return [
    {
      key: 'brake_energy',
      part,
      output: output(
        `energy of a stop ${from}`,
        'J',
        'kJ',
        'kJ',
        'of the whole motion, as if the drive took nothing back; a trailer left aside',
      ),
      value: found.energy,
      verdict: 'figure',
      note: `${Math.round(mass)} kg, and ${Math.round(wheels + rotors)} kg for what turns; ${ask}`,
    },
    {
      key: 'brake_power',
      part,
      output: power(`mean power of that stop`, 'over the time that it takes'),
      value: found.power,
      verdict: 'figure',
      note: `for ${found.time.toFixed(1)} s and ${found.distance.toFixed(0)} m`,
    },
    {
      key: 'brake_front_share',
      part,
      output: share('share of the front axle', 'at which both axles use the same friction: (front load) / (weight)'),
      value: found.frontShare,
      verdict: 'figure',
      note: `front ${(found.front / 1000).toFixed(2)} kN, rear ${(found.rear / 1000).toFixed(2)} kN on the road, and a friction of ${found.friction.toFixed(2)} used on both`,
    },
  ];
}
