/**
 * A car that is being driven: its figures, and its instant, which holds what the last call of the rates found. As in `figures.ts`
 * classes of plain fields that are never added to.
 */
import { FrictionAnchor } from '../tyre/friction.ts';
import { NO_STRETCH, PackFigures, PackNow } from '../pack/state.ts';
import { AxleFigures, CarFigures, NO_CURVE, NO_GEAR } from './figures.ts';
import type { GearFigures } from './figures.ts';
import { slipSeries } from './slip-curve.ts';

/** An axle at an instant. */
export class AxleNow {
  /** N. */
  load = Number.NaN;
  /** N at the contact patch, forwards. */
  force = Number.NaN;
  /** Slip over slip at the peak; kept as the first guess of the next call. */
  stretch = Number.NaN;
  slip = Number.NaN;
  /** rad/s. */
  motorSpeed = Number.NaN;
  /** N m at the motor shaft. */
  torque = Number.NaN;
  /** N m that the drive could give at this motor speed. */
  available = Number.NaN;
  /** N, peak friction times load. */
  grip = Number.NaN;
  /** N, load at no acceleration. */
  unloaded = Number.NaN;
  /** Coefficient. */
  rolling = Number.NaN;
  /** rad/s. */
  wheelSpeed = Number.NaN;
  /** rad/s2. */
  wheelSpin = Number.NaN;
  /** m/s at the contact patch. */
  slipSpeed = Number.NaN;
  /** W at the inverter's terminals. */
  power = Number.NaN;
  /** W lost in motor and inverter. */
  heat = Number.NaN;
  /** W behind the inverter that the pack leaves it beyond what it loses without torque, when last asked; NaN where that is not known. */
  useful = Number.NaN;
  /** W at the other axle's inverter. */
  otherPower = Number.NaN;
  /** N m at the other axle's wheels. */
  otherWheel = Number.NaN;
  /** K of the drive unit. */
  temperature = Number.NaN;
  /** N m, answer of `limit`, and its derivative after motor speed. */
  limit = Number.NaN;
  limitSlope = Number.NaN;
  /** Derivatives of that answer after the motor speed of the other axle, and after what this one is told of the other, W or N m. */
  limitAcross = Number.NaN;
  limitTold = Number.NaN;
  /** Of the friction of its tyres. */
  readonly anchor = new FrictionAnchor();
  /** Bracket of the slip iteration. */
  low = Number.NaN;
  high = Number.NaN;
  /** Slope and intercept of force over load, or wheel force and inertia, within one pass. */
  tangent = Number.NaN;
  intercept = Number.NaN;
  /** What the axle adds to the force, N, and to the inertia, kg, of the car within one pass. */
  addedForce = Number.NaN;
  addedInertia = Number.NaN;
  // Where both axles are solved at once, see `balance.ts`:
  /** rad/s of the motor over stretch. */
  speedPerStretch = Number.NaN;
  /** N m over the stretch of the front and of the rear axle, over m/s2, and what is amiss in what was told. */
  torquePerFront = Number.NaN;
  torquePerRear = Number.NaN;
  torquePerPush = Number.NaN;
  torqueGap = Number.NaN;
  /** What the other one is told, over N m and rad/s of this one, and what this one was told too little. */
  tellsPerTorque = Number.NaN;
  tellsPerSpeed = Number.NaN;
  toldGap = Number.NaN;
  /** N m over m/s2 at the grip limit. */
  gripPerPush = Number.NaN;
  /** N at the contact patch over N m at the motor shaft, stretch, and m/s2. */
  forcePerTorque = Number.NaN;
  forcePerStretch = Number.NaN;
  forcePerPush = Number.NaN;
  /** N that the tyre gives over what the drive puts out, over stretch and m/s2 with the torque left aside, and its bend. */
  spare = Number.NaN;
  sparePerStretch = Number.NaN;
  sparePerPush = Number.NaN;
  spareBend = Number.NaN;
  /** The last step. */
  stretchStep = Number.NaN;
  torqueStep = Number.NaN;
  /** m/s at which `stretch` was found, and how it went with speed there. */
  stretchSpeed = Number.NaN;
  stretchSlope = Number.NaN;
  /** Of the peak force at the slip asked for last, its slope and its bend. */
  share = Number.NaN;
  shareSlope = Number.NaN;
  shareBend = Number.NaN;
  /** Of the slip curve, piece by piece. */
  readonly series = slipSeries();
  /** The limit of its bus voltage, when last asked, was taken below the lowest voltage, see `sag.ts`. */
  reflected = false;
  /** The other axle is held back by the pack. */
  otherAtPack = false;
  /** The other axle keeps its share to the torque of this one. */
  otherFollows = false;
  /** The pack limit that holds back the other axle, whose torque this one follows; 0: it follows none that is held back so. */
  followedLimit = 0;
  /** N m that the pack leaves the axle that follows this one, and its derivatives after the motor speeds of that one and of this. */
  followerTorque = Number.NaN;
  followerSlope = Number.NaN;
  followerAcross = Number.NaN;
  /** The one that is engaged. */
  gear: GearFigures = NO_GEAR;
}

/** The whole car at an instant. */
export class CarNow {
  /** m/s, and m/s against the air. They stand here and are not handed on: a number that a call is given is boxed where it is not inlined. */
  speed = Number.NaN;
  air = Number.NaN;
  /** In a mode in which the wind from behind is faster than the car. */
  pushed = false;
  /** N that drag and trailer move from the front to the rear axle. */
  moved = Number.NaN;
  /** m/s2. */
  acceleration = Number.NaN;
  /** kg that it takes in all, m/s2 by which the last step of the balance changed it, and whether that was another than Newton's. */
  inertia = Number.NaN;
  change = Number.NaN;
  astray = false;
  /** Whether that balance did not come to an end. */
  lost = true;
  /** N, of car and trailer. */
  drag = Number.NaN;
  /** N against the motion that no axle load changes: drag, slope, and what a trailer rolls with. */
  against = Number.NaN;
  /** W at the terminals of the pack, A out of it, V. */
  busPower = Number.NaN;
  current = Number.NaN;
  voltage = Number.NaN;
  /** s, when the torque comes back. */
  shiftEnd = Number.NaN;
  /** s, when the torque began to build up, and the time since. */
  pressedAt = Number.NaN;
  pressed = Number.NaN;
}

/** Where the states and guards of a car stand; -1: it has none of these. */
export class Places {
  states = 0;
  /** All of them, or none where nobody reads its energies. */
  quadratures = 0;
  unitFront = -1;
  unitRear = -1;
  pack = -1;
  spinFront = -1;
  spinRear = -1;
  /** Guards, and the first of each axle. */
  guards = 0;
  guardsFront = -1;
  guardsRear = -1;
  /** Guards of the axles come before this one. */
  guardsOfAxles = 0;
  /** The one of the gearbox. */
  guardShift = -1;
  /** The share of the budget of current that is spent, and the first of its two guards. */
  budget = -1;
  guardBudget = -1;
  /** Those of axles that nothing is left to. */
  guardNothingFront = -1;
  guardNothingRear = -1;
  /** The one of wind from behind. */
  guardWind = 0;
}

/** The car as it moves. */
export class Moving {
  car = new CarFigures();
  pack = new PackFigures({ ocv: NO_CURVE, ohm: NO_CURVE, cell: [NO_STRETCH] });
  front = new AxleFigures();
  rear = new AxleFigures();
  /** State of charge at the start. */
  charge = Number.NaN;
  /** K of pack and drive units at the start. */
  soaked = Number.NaN;
  /** Gear engaged, 0 for the first. */
  gear = -1;
  /** Whether slips and loads are settled to round-off, and not to what a run of which no more than 1e-7 is asked can tell. */
  sharp = true;
  readonly now = new CarNow();
  readonly packNow: PackNow;
  readonly atFront = new AxleNow();
  readonly atRear = new AxleNow();
  readonly places: Places;
  /** Memory for a mode that is looked for. */
  readonly ratesOut: Float64Array;
  readonly guards: Float64Array;

  constructor(places: Places, ratesOut: Float64Array, guards: Float64Array, packNow = new PackNow()) {
    this.packNow = packNow;
    this.places = places;
    this.ratesOut = ratesOut;
    this.guards = guards;
  }
}
