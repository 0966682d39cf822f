/** What a supply on the wall lets a car draw, and how chargers side by side share it. */
import type { Charger } from '../car.ts';

/** An alternating-current supply, as a single-phase charger sees it. */
export interface Supply {
  /** V between the two wires that a charger is on: phase to neutral of a three-phase supply. */
  readonly voltage: number;
  /** A that the car may draw from each phase for hours. */
  readonly current: number;
  /** 1 to 3. */
  readonly phases: number;
  /** Direct current in place of all that; left out: none. */
  readonly station?: Station;
}

/** A station of direct current. */
export interface Station {
  /** W and A that it gives at most, and V at the pack between which it does. */
  readonly power: number;
  readonly current: number;
  readonly least: number;
  readonly greatest: number;
}

/** What can be drawn from the wall at most. */
export interface WallLimit {
  /** W. */
  readonly power: number;
  /** A in each phase then; 0 in one that no charger is on. */
  readonly currents: readonly number[];
  /** Which of them sets it: the supply when the chargers on any phase could take more than it gives. */
  readonly by: 'supply' | 'charger' | 'station';
  /** Supply and chargers give as good as the same: a stronger one of them alone brings next to nothing. */
  readonly alike?: true;
}

/** Share of the power below which a stronger supply, or a stronger charger, does not pay. Common practice, no source. */
const WORTH = 0.01;

/**
 * A that the duty cycle (0 to 1) of the control pilot lets the car draw from each phase, as IEC 61851-1 Annex A and SAE J1772
 * have it (from memory): 8 to 10 % 6 A; 10 to 85 % 0.6 A per percent; to 96 % 2.5 (duty - 64) A; to 97 % 80 A. Null where it
 * allows no charging by itself: outside of that, 3 to 7 % among it, where the current is agreed in a digital message.
 */
export function pilotCurrent(duty: number): number | null {
  // Less than a billionth of a percent is round-off: 100 times 0.07 is 7.000000000000001.
  const percent = Math.round(1e11 * duty) / 1e9;
  if (!(percent >= 8 && percent <= 97)) return null;
  if (percent < 10) return 6;
  if (percent <= 85) return 0.6 * percent;
  return percent <= 96 ? 2.5 * (percent - 64) : 80;
}

/**
 * Every charger is on one phase: the first on the first, the second on the second, and around again. Voltage and current are
 * in step (power factor 1: chargers correct it). The supply limits each phase by itself.
 * @throws RangeError when phases or chargers are not whole numbers from 1 on.
 */
export function wallLimit({ voltage, current, phases }: Supply, { power, count }: Charger): WallLimit {
  if (!Number.isInteger(phases) || phases < 1) throw new RangeError(`\`phases\` must be 1, 2 or 3, found ${phases}`);
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`\`count\` must be 1 or more, found ${count}`);
  const wished = Array.from({ length: phases }, (_, phase) => (1 + Math.floor((count - 1 - phase) / phases)) * power);
  const most = voltage * current;
  const drawn = wished.map(each => Math.min(each, most));
  const sum = (all: readonly number[]): number => all.reduce((total, each) => total + each, 0);
  const given = most * wished.filter(each => each > 0).length;
  const alike = Math.max(sum(wished), given) < (1 + WORTH) * sum(drawn);
  return {
    power: sum(drawn),
    currents: drawn.map(each => each / voltage),
    by: wished.some(each => each > most) ? 'supply' : 'charger',
    ...(alike && { alike }),
  };
}
