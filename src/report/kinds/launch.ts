/** The verdict on a launch in plain sentences. All wording about the answer stands here, for page and terminal alike. */
import { longest, shares } from '../../plots/kit/bands.ts';
import { type Described, figure, written } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { TARGET } from '../../runs/launch/run.ts';
import type { Result } from '../../runs/result.ts';
import { formatQuantity, type System } from '../../units.ts';
import { headlineOf, type Headline } from '../card.ts';
import { leverWords } from './levers.ts';
import { reason } from '../unanswered.ts';

/** The answer to the three questions put to every launch, and what could be done about it. */
export interface Verdict {
  readonly headline: Headline;
  /** What holds it back, and for how long. */
  readonly held: string;
  /** `yes`, `partly`, `hardly`, `no` or `unknown`: do the tyres waste the power? */
  readonly wasted: Wasted;
  /** The same in a sentence with its numbers. */
  readonly tyres: string;
  /** What traction control is worth; '' where that is not known. `spins`: whether this car lacks it, and would gain by it. */
  readonly control: string;
  readonly spins: boolean;
  /** What one change would bring; '' where nobody looked. */
  readonly levers: string;
  /** From which friction and which power on more of it brings nothing. */
  readonly enough: readonly string[];
}

export type Wasted = 'yes' | 'partly' | 'hardly' | 'no' | 'unknown';

/** Shares of the drive energy withheld by grip from which the word changes. Our own choice; the figure always stands beside it. */
const YES = 0.15;
const PARTLY = 0.03;
const NOTICEABLE = 0.0005;

/** s; less than this is within what the two models of the wheels differ by where no wheel spins. */
const NOTHING = 0.02;

/** The goal that the grip bill is drawn up to, in both systems. */
const GOAL: { readonly [system in System]: string } = {
  metric: '100\u00a0km/h',
  imperial: '100\u00a0km/h (62\u00a0mph)',
};

/** The verdict on a launch. */
export function verdict(result: Result, system: System): Verdict {
  return {
    headline: headlineOf(result, ...goalOf(result, system), system),
    held: held(result, system),
    wasted: wasted(result, system),
    tyres: tyres(result, system),
    control: control(result, system),
    spins: spins(result),
    levers: leverWords(result, targetOf(result, system), system),
    enough: whatIsEnough(result, system),
  };
}

/** Whether it goes to another speed than the usual one. */
export function hasOwnTarget(result: Result): boolean {
  const target = summaryNumber(result, 'target_speed');
  return target !== null && Math.abs(target - TARGET) > 1e-9;
}

/** The speed that the launch aims at. */
export function targetOf(result: Result, system: System): string {
  return formatQuantity(summaryNumber(result, 'target_speed') ?? TARGET, 'm/s', system === 'metric' ? 'km/h' : 'mph');
}

/** Whether it ends at a speed of its own below the usual one: what is told up to that one is then about a way that nobody asked for. */
export function isShort(result: Result): boolean {
  return (summaryNumber(result, 'target_speed') ?? TARGET) < TARGET - 1e-9;
}

/** The usual sprint, or the one to a target speed of its own. */
export function goalOf(result: Result, system: System): readonly [key: string, of: string] {
  const target = summaryNumber(result, 'target_speed');
  if (target !== null && hasOwnTarget(result)) {
    return ['time', `to ${targetOf(result, system)}`];
  }
  return system === 'metric' ? ['time_to_100_km_h', '0 to 100\u00a0km/h'] : ['time_to_60_mph', '0 to 60\u00a0mph'];
}

function held(result: Result, system: System): string {
  const [key] = goalOf(result, system);
  const usual = system === 'metric' ? '100\u00a0km/h' : '60\u00a0mph';
  const goal = hasOwnTarget(result) ? targetOf(result, system) : usual;
  const time = summaryNumber(result, key);
  const end = time ?? result.bands.at(-1)?.to ?? 0;
  const parts = shares(result.bands, end);
  const main = longest(result.bands, end);
  if (main === null) return 'Nothing is known of what holds it back.';
  const until = time === null ? `In the ${seconds(end)} of this run` : `Of the ${seconds(end)} to ${goal}`;
  if (parts.length === 1)
    return time === null
      ? `${until} ${main.limiter} holds it back all the time.`
      : `All the way to ${goal} it is held back by ${main.limiter}.`;
  const named = parts.filter(part => part.limiter === main.limiter || part.share >= 0.02);
  const told = named.map(
    (part, i) => `${part.limiter} ${i === 0 ? 'holds it back for ' : 'for '}${seconds(part.time)}`,
  );
  const rest = named.length < parts.length ? ', others for moments' : '';
  return `${until}, ${told.join(', ')}${rest}.`;
}

/** Whether the wheels spin: as much is lost in slip as without traction control, and control would help. */
function spins(result: Result): boolean {
  const own = summaryNumber(result, 'slip_energy');
  const spun = summaryNumber(result, 'slip_energy_without_control');
  if (own === null || spun === null) return false;
  return own > 0.99 * spun && (summaryNumber(result, 'control_worth') ?? 0) >= NOTHING;
}

/** Share of the time to the usual goal that unlimited grip would save; of use where nothing is held back. */
function lostTime(result: Result): number | null {
  const own = summaryNumber(result, 'time_to_100_km_h');
  const unlimited = summaryNumber(result, 'time_unlimited_grip');
  return own === null || unlimited === null || isShort(result) ? null : (own - unlimited) / own;
}

function wasted(result: Result, system: System): Wasted {
  const withheld = spins(result) ? lostTime(result) : summaryNumber(result, 'grip_withheld');
  const { limited, whole } = gripOnTheWay(result, system);
  if (withheld === null) {
    if (whole === 0) return 'unknown';
    return limited >= MOSTLY * whole ? 'yes' : limited > 0 ? 'partly' : 'no';
  }
  if (withheld >= YES) return 'yes';
  if (withheld >= PARTLY) return 'partly';
  return withheld >= NOTICEABLE || limited >= MOMENT ? 'hardly' : 'no';
}

/** Shares of the time at the grip limit from which the word changes, of a run that does not come to the goal of the grip bill. Our own choice, as above. */
const MOSTLY = 0.5;

/** s at the grip limit that are told, though they take next to nothing. */
const MOMENT = 0.05;

/** s at the grip limit on its way, and s that it takes, to its own target where it has one and gets there. */
function gripOnTheWay(result: Result, system: System): { readonly limited: number; readonly whole: number } {
  const whole = summaryNumber(result, goalOf(result, system)[0]) ?? result.bands.at(-1)?.to ?? 0;
  const limited = shares(result.bands, whole).find(({ limiter }) => limiter === 'grip')?.time ?? 0;
  return { limited, whole };
}

/** Of a run that ends before the goal of the grip bill. A car that does not move off has been told of already. */
function tyresOnTheWay(result: Result, system: System): string {
  const { limited, whole } = gripOnTheWay(result, system);
  if (whole === 0) return '';
  if (limited === 0) return 'In this run grip never limits: the tyres put down all that the drive unit gives.';
  const free = summaryNumber(result, 'grip_free_speed');
  const above =
    free === null
      ? ''
      : `; above ${figure(free, described(result, 'grip_free_speed'), system, 0)} grip no longer matters`;
  const much = `How much that is can not be said: ${reason(result, 'grip_withheld')}.`;
  return `In this run grip limits for ${seconds(limited)} of ${seconds(whole)}${above}. ${much}`;
}

/** The grip bill in one sentence. */
function tyres(result: Result, system: System): string {
  const withheld = summaryNumber(result, 'grip_withheld');
  if (withheld === null) return tyresOnTheWay(result, system);
  const spinning = spins(result);
  const goal = controlGoal(result, system);
  if (withheld < NOTICEABLE && !spinning) {
    const { limited } = gripOnTheWay(result, system);
    return limited < MOMENT
      ? `Up to ${goal} the tyres put down all that the drive unit gives: grip is not what holds this car back.`
      : `Up to ${goal} grip limits for ${seconds(limited)}, but takes next to nothing: less than ${written(100 * NOTICEABLE, '%', 2)} of what the drive unit could give.`;
  }
  const held = withheld < 0.01 ? 'put down all but a hundredth' : `can not put down ${written(100 * withheld, '%', 0)}`;
  const slip = summaryNumber(result, 'slip_energy');
  const heat =
    slip === null ? '' : `: ${figure(slip, described(result, 'slip_energy'), system)} go into the tyres as heat`;
  const parts = [
    spinning
      ? `Up to ${goal} the driven wheels spin${heat}`
      : `Up to ${goal} these tyres ${held} of what the drive unit could give`,
  ];
  const sprint = summaryNumber(result, 'time_to_100_km_h');
  const unlimited = isShort(result) ? null : summaryNumber(result, 'time_unlimited_grip');
  if (sprint === null && !isShort(result))
    parts.push(`the car does not reach ${GOAL[system]}: ${reason(result, 'time_to_100_km_h')}`);
  else if (sprint !== null && unlimited !== null)
    parts.push(`with unlimited grip ${GOAL[system]} would take ${seconds(unlimited)} instead of ${seconds(sprint)}`);
  const free = summaryNumber(result, 'grip_free_speed');
  if (free !== null && free > 0)
    parts.push(`above ${figure(free, described(result, 'grip_free_speed'), system, 0)} grip no longer matters`);
  else if (free === null && result.reasons['grip_free_speed'] !== undefined)
    parts.push(reason(result, 'grip_free_speed'));
  return `${parts.join('; ')}.`;
}

/** Up to where it is told what traction control is worth. */
export function controlGoal(result: Result, system: System): string {
  return isShort(result) ? targetOf(result, system) : GOAL[system];
}

/** The same foot with the wheels free to spin, against the slip held at the peak. */
function control(result: Result, system: System): string {
  const free = summaryNumber(result, 'time_without_control');
  const worth = summaryNumber(result, 'control_worth');
  if (free === null || worth === null) return '';
  const goal = controlGoal(result, system);
  if (Math.abs(worth) < NOTHING) return `Traction control would save nothing on the way to ${goal}.`;
  const slip = (key: string): string | null => {
    const value = summaryNumber(result, key);
    return value === null ? null : figure(value, described(result, key), system);
  };
  const [spun, held] = [slip('slip_energy_without_control'), slip('slip_energy_with_control')];
  const heat = spun === null || held === null ? '' : `, and ${spun} instead of ${held} would go into the tyres as heat`;
  const [more, unit] = [Math.abs(worth), worth > 0 ? 'more' : 'less'];
  return (
    `Without traction control ${goal} would take ${written(free, 's')}, ` +
    `${written(more, 's')} ${unit} than with the slip held at its best${heat}.`
  );
}

/** Peak friction of racing compounds on a dry road: Bosch Automotive Handbook, coefficients of static friction for pneumatic tyres. */
const RACING = 1.8;

function whatIsEnough(result: Result, system: System): readonly string[] {
  const found: string[] = [];
  if (isShort(result)) return found;
  const enough = summaryNumber(result, 'friction_enough');
  const withheld = summaryNumber(result, 'grip_withheld') ?? 0;
  if (enough !== null && withheld >= NOTICEABLE)
    found.push(
      enough > RACING
        ? 'No tyre puts down all of it: even a racing compound grips too little.'
        : `From a friction of ${written(enough, '1', 2)} on, grip would no longer matter.`,
    );
  const power = summaryNumber(result, 'power_enough');
  if (power !== null)
    found.push(
      `With these tyres, this torque and this pack, more than ${figure(power, described(result, 'power_enough'), system, 0)} of drive-unit power in all brings ${GOAL[system]} no sooner.`,
    );
  return found;
}

/** How an output is to be read; an output without a description is shown as it is kept. */
function described(result: Result, key: string): Described {
  return result.outputs[key] ?? { unit: '1', display: { metric: '1', imperial: '1' } };
}

/** Tenths are what a sentence can bear; a run under a tenth of a second keeps two decimals. */
function seconds(time: number): string {
  return written(time, 's', time < 0.1 ? 2 : 1);
}
