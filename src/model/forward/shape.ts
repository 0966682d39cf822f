/** Which states a car has: cars of one shape can be driven one after the other in the same memory. */
import type { AxleName, Car } from '../car.ts';
import { pulseOver } from '../pack/state.ts';
import { Places } from './instant.ts';
import { AXLE_GUARDS } from './guards.ts';
import { RC } from './state.ts';

export interface PlantShape {
  /** RC pairs of the pack, 0 to 2. */
  readonly pairs: number;
  /** Whether the temperatures of drive units and pack are states. */
  readonly heat: boolean;
  /** Driven axles, and whether their wheel speed is a state. */
  readonly front: 'free' | 'driven' | 'spin';
  readonly rear: 'free' | 'driven' | 'spin';
  /** Whether one of the drives has more than one gear. */
  readonly gears: boolean;
  /** Whether more current can be asked of the pack than it gives for ever. */
  readonly budget: boolean;
}

/** @throws RangeError when one axle is driven twice. */
export function shapeOf(car: Car): PlantShape {
  return {
    pairs: car.pack.cell.pairs.length,
    heat: car.pack.heat !== undefined || car.drives.some(drive => drive.unit.heat !== undefined),
    front: kindOf(car, 'front'),
    rear: kindOf(car, 'rear'),
    gears: car.drives.some(drive => drive.gearbox !== undefined),
    budget: canSpend(car),
  };
}

/** Of the power at the motor shaft at its peak, what may be lost before it: more than any drive that is worth having. */
const WORST_LOSS = 0.5;

/** W of all else. */
const CONSUMERS = 15_000;

/** Whether the drives and all else can ask for more than the continuous current: at the lowest voltage with the worst losses. */
function canSpend({ pack, drives }: Car): boolean {
  const lasting = pulseOver(pack.pulses?.continuous, pack.maxCurrent);
  if (lasting === Infinity) return false;
  const asked = drives.reduce((sum, { unit }) => sum + unit.peakPower, 0) * (1 + WORST_LOSS) + CONSUMERS;
  return asked > lasting * pack.minVoltage;
}

function kindOf(car: Car, axle: AxleName): PlantShape['front'] {
  const [drive, second] = car.drives.filter(each => each.axle === axle);
  if (second !== undefined) throw new RangeError(`the ${axle} axle is driven twice`);
  if (drive === undefined) return 'free';
  return drive.traction.policy === 'spin' ? 'spin' : 'driven';
}

/** Whether cars of the one shape can be loaded into a plant of the other. */
export function sameShape(a: PlantShape, b: PlantShape): boolean {
  return (
    a.pairs === b.pairs &&
    a.heat === b.heat &&
    a.front === b.front &&
    a.rear === b.rear &&
    a.gears === b.gears &&
    a.budget === b.budget
  );
}

/** Where its states and guards stand: temperatures after the RC pairs, then the budget of current, wheel speeds last; front before rear. */
export function placesOf({ pairs, heat, front, rear, gears, budget }: PlantShape): Places {
  const places = new Places();
  let next = RC + pairs;
  if (heat) {
    if (front !== 'free') places.unitFront = next++;
    if (rear !== 'free') places.unitRear = next++;
    places.pack = next++;
  }
  if (budget) places.budget = next++;
  if (front === 'spin') places.spinFront = next++;
  if (rear === 'spin') places.spinRear = next++;
  places.states = next;
  let guards = 0;
  if (front !== 'free') {
    places.guardsFront = guards;
    guards += AXLE_GUARDS;
  }
  if (rear !== 'free') {
    places.guardsRear = guards;
    guards += AXLE_GUARDS;
  }
  places.guardsOfAxles = guards;
  if (gears) places.guardShift = guards++;
  if (budget) {
    places.guardBudget = guards;
    guards += 2;
  }
  if (front !== 'free') places.guardNothingFront = guards++;
  if (rear !== 'free') places.guardNothingRear = guards++;
  places.guardWind = guards++;
  places.guards = guards;
  return places;
}
