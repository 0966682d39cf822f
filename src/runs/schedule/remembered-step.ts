/** A step that the car has driven before on this schedule: only the pack is driven again. */
import { isEasyForPack, isHot } from '../../model/backward/limits.ts';
import type { Powers } from '../../model/backward/state.ts';
import { lowestVoltage } from '../../model/pack/state.ts';
import { isHardFor, isNearLow } from './cut.ts';
import { drawnAt } from './consumers.ts';
import { isTooMuch, losesCharge, NOTHING, warmUp } from './instant.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { countHeldAgain } from './held-late.ts';
import { finish } from './interval-step.ts';
import type { Journey } from './journey.ts';
import { isTaken, keepsBudget, keepsSign, REACH, SAG, voltageUnder } from './keeps.ts';
import { COLUMNS, M, part, pointKept, SAME_VOLTAGE, TRAIL_WIDTH } from './memory.ts';
import type { StepMemory } from './memory.ts';

/** The step at hand as it is remembered; false, with nothing changed, where it has to be driven. */
export function rememberedStep(car: Journey, memory: StepMemory): boolean {
  const { interval } = car;
  const { data, end } = memory;
  let { row } = memory;
  while (row < end && part(data, row * COLUMNS) < interval.s0) row++;
  memory.row = row;
  const o = row * COLUMNS;
  if (row >= end || memory.adds || part(data, o) !== interval.s0) return false;
  const to = part(data, o + M.to);
  const before = interval.s1;
  if (to > before) return false;
  interval.s1 = to;
  if (!repeatRow(car, memory, o)) {
    interval.s1 = before;
    return false;
  }
  memory.row = row + 1;
  addRows(car.sums, memory, o, o + COLUMNS);
  return true;
}

/** Adds what the road took in rows that are driven again, one behind the other. @param from place of the first. @param to place behind the last. */
export function addRows(sums: Powers, { data }: StepMemory, from: number, to: number): void {
  const last = to - COLUMNS;
  const before = from - COLUMNS;
  sums.unitHeat += part(data, last + M.unitHeat) - part(data, before + M.unitHeat);
  sums.gearHeat += part(data, last + M.gearHeat) - part(data, before + M.gearHeat);
  sums.spinUp += part(data, last + M.spinUp) - part(data, before + M.spinUp);
  sums.slip += part(data, last + M.slip) - part(data, before + M.slip);
  sums.rolling += part(data, last + M.rolling) - part(data, before + M.rolling);
  sums.drag += part(data, last + M.drag) - part(data, before + M.drag);
  sums.grade += part(data, last + M.grade) - part(data, before + M.grade);
  sums.brakes += part(data, last + M.brakes) - part(data, before + M.brakes);
}

/**
 * The step at hand, which is that of a row, but for what the road took (`addRows`); false, with nothing changed, where it has to be
 * driven. @param o place of the row.
 */
export function repeatRow(car: Journey, memory: StepMemory, o: number): boolean {
  const { interval, following: f, sums, consumers } = car;
  const { data } = memory;
  const { pack, powers, front, rear } = f;
  if (part(data, o + M.gear) !== car.gear || part(data, o + M.held) !== car.held) return false;
  const h = interval.s1 - interval.s0;
  const drawn1 = drawnAt(consumers, interval.heaterFrom + interval.s0 + FIRST * h);
  const drawn2 = consumers.extra === 0 ? drawn1 : drawnAt(consumers, interval.heaterFrom + interval.s0 + SECOND * h);
  if (isTooMuch(pack, drawn1)) return false;
  const first = part(data, o + M.first) + drawn1;
  const second = part(data, o + M.second) + drawn2;
  const most = Math.max(first, second);
  if (isNearLow(car, first, second) || !isEasyForPack(f, most)) return false;
  const drives = part(data, o + M.drives);
  if (drives === 2) {
    // What the consumers take is all that the drives give.
    if (pack.limit !== 0 || drawn1 !== drawn2 || drawn1 !== part(data, o + M.consumers)) return false;
  } else if (drives === 1) {
    const peak = most + REACH * Math.abs(second - first);
    if (isHardFor(pack, peak)) return false;
    const lowest = part(data, o + M.lowest);
    if (lowest < 0) {
      if (SAG * voltageUnder(pack, peak) < -lowest) return false;
    } else if (lowestVoltage(f.moving.pack, pack) < SAME_VOLTAGE * lowest) return false;
    if (isHot(front) || isHot(rear)) return false;
  } else if (!isTaken(first, second, pack.limit)) return false;
  if (f.moving.pack.pulses && !keepsBudget(car, first, second)) return false;
  const others = Math.abs(drawn1 - part(data, o + M.consumers)) > NOTHING;
  if (others && losesCharge(car) && !keepsSign(first, second)) return false;
  pack.first = first;
  pack.second = second;
  powers.power = second;
  sums.power += 0.5 * h * (first + second);
  sums.auxiliaries += 0.5 * h * (drawn1 + drawn2);
  if (car.warms) {
    warmUp(car, front, part(data, o + M.heatFront), part(data, o + M.heatFront + 1), h);
    warmUp(car, rear, part(data, o + M.heatRear), part(data, o + M.heatRear + 1), h);
  }
  if (car.track !== null) {
    const { first: a, second: b } = car.track.trail;
    pointKept(data, o + M.trail, a);
    pointKept(data, o + M.trail + TRAIL_WIDTH, b);
    a.pack = first;
    a.consumers = drawn1;
    b.pack = second;
    b.consumers = drawn2;
  }
  finish(car);
  if (car.held > 0) countHeldAgain(car, memory, o);
  return true;
}
