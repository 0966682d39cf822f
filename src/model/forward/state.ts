/** States, quadratures, limits and modes of the forward model: which number means what. */

/** States of the plant; the RC voltages follow from `RC` on, then temperatures, then the wheel speeds of spinning axles. */
export const SPEED = 0;
export const DISTANCE = 1;
export const CHARGE = 2;
export const RC = 3;

/** Quadratures, J, counted from the first quadrature. */
export const QUADRATURES = [
  'chemical', // open-circuit voltage times current
  'packHeat', // ohmic and polarisation
  'unitHeat', // motor and inverter
  'gearHeat', // gears and shafts
  'spinUp', // into the rotating parts of the driven axles
  'slip', // at the contact patches
  'rolling',
  'drag',
  'grade',
  'auxiliaries', // dc-dc converter included
  'withheld', // what the drive units could have given at the shaft while grip held them back
] as const;
export const QUADRATURE_COUNT = QUADRATURES.length;

/** What can set the torque of a drive. */
export const L = {
  torque: 1,
  power: 2,
  busVoltage: 3,
  speed: 4,
  minVoltage: 5,
  current: 6,
  shaft: 7,
  pedal: 8,
  heatTorque: 9,
  heatPower: 10,
  packHeat: 11,
  split: 12,
  buildUp: 13,
  packCold: 14,
  packLow: 15,
} as const;
export const LIMIT_COUNT = 15;

/**
 * A mode is one number: six bits for the front axle, six for the rear, three for the gear (0 is the first), one for the
 * break in the torque while a gear is changed, two for the budget of the pack's current, two for axles that nothing is left to,
 * one for wind from behind. The bits of an axle are 0 when it is not driven; else the limit in force, plus
 * `GRIP` when grip comes before it, or `SLIDE` when its wheels spin past the peak of friction.
 */
export const LIMIT_BITS = 15;
export const GRIP = 16;
export const SLIDE = 32;
export const AXLE_BITS = 63;
export const REAR_SHIFT = 6;
export const GEAR_SHIFT = 12;
const GEAR_BITS = 7;
export const BREAK = 1 << 15;
/** The budget of the pack's current is being spent or recovers; without this bit it is whole. */
export const SPENDS = 1 << 16;
/** It is spent, and the current that lasts for ever holds the car back. */
export const SPENT = 1 << 17;
/** What holds the front axle back leaves it nothing; of the rear one the bit beside it. */
const NOTHING_LEFT = 1 << 18;

/** The wind from behind is faster than the car. */
export const PUSHED = 1 << 20;

/** The bit for an axle that nothing is left to. @param axle 0 front, 1 rear. */
export function nothingLeft(axle: number): number {
  return NOTHING_LEFT << axle;
}

/** Bits of an axle in a mode: 0 front, 1 rear. */
export function axleMode(mode: number, axle: number): number {
  return (mode >> (REAR_SHIFT * axle)) & AXLE_BITS;
}

/** The mode with other bits for an axle. */
export function withAxleMode(mode: number, axle: number, bits: number): number {
  return (mode & ~(AXLE_BITS << (REAR_SHIFT * axle))) | (bits << (REAR_SHIFT * axle));
}

/** Whether a driven axle is at its grip limit, or its wheels spin past it. */
export function atGrip(mode: number): boolean {
  return (mode & (GRIP | SLIDE | ((GRIP | SLIDE) << REAR_SHIFT))) !== 0;
}

/** Of a mode: its gear, and whether that is let go. */
export const GEARED = (GEAR_BITS << GEAR_SHIFT) | BREAK;

/** Gear of a mode, 0 for the first. */
export function gearOf(mode: number): number {
  return (mode >> GEAR_SHIFT) & GEAR_BITS;
}

/** Whether an axle keeps its share to the torque of the other one. @param bits of the axle. */
export function follows(bits: number): boolean {
  return (bits & (GRIP | LIMIT_BITS)) === L.split;
}

/** Whether a limit is one of the pack, which two drives share. */
export function isPackLimit(l: number): boolean {
  return l === L.minVoltage || l === L.current || l === L.packHeat || l === L.packCold || l === L.packLow;
}

/** Whether the limit of the pack's current holds an axle back. @param bits of the axle. */
export function atCurrent(bits: number): boolean {
  return (bits & (GRIP | LIMIT_BITS)) === L.current;
}

/** Whether an axle is held back by the pack's power. @param bits of the axle. */
export function atPack(bits: number): boolean {
  return (bits & GRIP) === 0 && isPackLimit(bits & LIMIT_BITS);
}
