/** What every run says of the currents of its pack and the torque in its half shafts. */
import { above, below, scaled } from '../../model/duty/track.ts';
import type { Track } from '../../model/duty/track.ts';
import { rootMeanSquare, WINDOWS, windowed } from '../../model/duty/windows.ts';
import { wants } from '../kind.ts';
import type { Wanted } from '../kind.ts';
import { amperes, torque } from '../output.ts';
import type { Output } from '../result.ts';
import type { Trail } from '../trail/trail.ts';

/** `10 s`, `30 min`. */
export function windowWords(seconds: number): string {
  return seconds < 120 ? `${seconds} s` : `${seconds / 60} min`;
}

const OVER = 'root mean square of the worst stretch of that length; a shorter run has nothing before and after it';

/** Keys of the currents over windows. */
function windowKeys(prefix: string): readonly (readonly [key: string, seconds: number])[] {
  return WINDOWS.map(seconds => [`${prefix}current_${seconds}_s`, seconds] as const);
}

const OUT = windowKeys('');
const BACK = windowKeys('charge_');

const rms: { readonly [key: string]: Output } = {
  current_rms: amperes('r.m.s. of the pack current', 'of the whole run, both ways: what warms cables and fuses'),
};
const out = Object.fromEntries(
  OUT.map(([key, seconds]) => [key, amperes(`current out of the pack over ${windowWords(seconds)}`, OVER)]),
);
const back = Object.fromEntries(
  BACK.map(([key, seconds]) => [key, amperes(`current into the pack over ${windowWords(seconds)}`, OVER)]),
);
const shafts: { readonly [key: string]: Output } = {
  half_shaft_torque: torque(
    'torque in a half shaft',
    'the greatest, driving; an open differential gives each half of the axle',
  ),
};
const dragged: { readonly [key: string]: Output } = {
  half_shaft_torque_back: torque('torque in a half shaft, braking', 'the greatest against the motion, by the drive'),
};

/** Of a car at full pedal, of one on its way, and of one at the wall. */
export const launchCurrents = { ...rms, ...out, ...shafts };
export const travelCurrents = { ...rms, ...out, ...back, ...shafts, ...dragged };
export const chargeCurrents = { ...rms, ...back };

/** Every key of them. */
export const CURRENT_KEYS: readonly string[] = Object.keys(travelCurrents);

/** The torque of one half shaft of an axle: half of both. */
export function halfShaft(trail: Trail, axle: 'front' | 'rear'): Track {
  return scaled(trail.track(axle === 'front' ? 'frontTorque' : 'rearTorque'), 0.5);
}

/** N m of one of them, the greatest and the least. */
export function halfShaftExtremes(
  trail: Trail,
  axle: 'front' | 'rear',
): { readonly greatest: number; readonly least: number } {
  const { greatest, least } = trail.torques(axle);
  return { greatest: 0.5 * greatest, least: 0.5 * least };
}

/** The figures that are wanted of `outputs`, which is one of the three above. */
export function currentFigures(
  trail: Trail,
  outputs: { readonly [key: string]: Output },
  wanted: Wanted,
): { readonly [key: string]: number } {
  const values: { [key: string]: number } = {};
  const has = (key: string): boolean => outputs[key] !== undefined && wants(wanted, [key]);
  const pack = trail.track('pack');
  if (has('current_rms')) values['current_rms'] = rootMeanSquare(pack);
  for (const [keys, side] of [
    [OUT, above],
    [BACK, below],
  ] as const) {
    const asked = keys.filter(([key]) => has(key));
    if (asked.length === 0) continue;
    const track = side(pack);
    for (const [key, seconds] of asked) values[key] = windowed(track, seconds).once;
  }
  if (!has('half_shaft_torque') && !has('half_shaft_torque_back')) return values;
  const [front, rear] = [halfShaftExtremes(trail, 'front'), halfShaftExtremes(trail, 'rear')];
  if (has('half_shaft_torque')) values['half_shaft_torque'] = Math.max(0, front.greatest, rear.greatest);
  if (has('half_shaft_torque_back')) values['half_shaft_torque_back'] = Math.max(0, -front.least, -rear.least);
  return values;
}
