/**
 * The capacitors of an inverter behind a pre-charge resistor, in closed forms of a circuit of one resistor and one capacitor (any
 * textbook of electrical engineering). What hangs on the capacitors meanwhile is a bleed resistor, a load of constant power, or both.
 */
import * as elementary from '../../elementary.ts';

/** V, F, ohm. */
export interface Precharge {
  /** V of the pack without load. */
  readonly voltage: number;
  /** F of all that hangs on the bus. */
  readonly capacitance: number;
  /** ohm of the pre-charge resistor. */
  readonly resistance: number;
  /** ohm across the capacitors; left out: none. */
  readonly bleed?: number;
  /** A load of constant power, W, and V at the capacitors from which on it draws. */
  readonly load?: { readonly power: number; readonly from: number };
  /** Of the voltage of the pack, at which the contactor closes. */
  readonly share: number;
  /** ohm of the pack and its way, that hold the current back when the contactor closes. */
  readonly loop: number;
}

export interface Precharged {
  /** V that the capacitors come to if nothing closes; where a load holds them down, there. */
  readonly settles: number;
  /** s until the contactor may close; null where the capacitors never get there. */
  readonly time: number | null;
  /** J into the resistor until then; null likewise. */
  readonly energy: number | null;
  /** W in the resistor when it begins: the most. */
  readonly peakPower: number;
  /** W that stay in the resistor where the contactor never closes. */
  readonly stayingPower: number;
  /** A that flow when the contactor closes; null where it does not, or nothing holds them back. */
  readonly closingCurrent: number | null;
}

/**
 * Thevenin's circuit of pack, resistor and bleed resistor charges the capacitors: C dV/dt = (E' - V)/R' - P/V. With the roots
 * a > b of V^2 - E' V + P R' it is C R' V dV = -(V - a)(V - b) dt, by partial fractions. Without a load a = E', b = 0.
 */
export function precharged(given: Precharge): Precharged {
  const { voltage: E, capacitance: C, resistance: R, bleed = Infinity, load, share, loop } = given;
  const along = bleed === Infinity ? 1 : bleed / (R + bleed);
  const circuit: Circuit = { source: E, E: E * along, R: R * along, C, Rs: R };
  const wish = share * E;
  const draws = load !== undefined && load.power > 0;
  const first = draws ? Math.min(load.from, wish) : wish;
  const begins = stretch(circuit, 0, 0, first);
  const peakPower = (E * E) / R;
  const stays = (settles: number): Precharged => ({
    settles,
    time: null,
    energy: null,
    peakPower,
    stayingPower: elementary.pow(E - settles, 2) / R,
    closingCurrent: null,
  });
  if (begins === null) return stays(circuit.E);
  const rest = draws && first < wish ? stretch(circuit, load.power, first, wish) : NOTHING;
  if (rest === null) return stays(heldAt(circuit, load?.power ?? 0, first));
  return {
    settles: draws ? heldAt(circuit, load.power, first) : circuit.E,
    time: begins.time + rest.time,
    energy: begins.energy + rest.energy,
    peakPower,
    stayingPower: 0,
    closingCurrent: loop > 0 ? (E - wish) / loop : null,
  };
}

/** As Thevenin's source sees the capacitors, V, ohm and F; and the source and resistor behind it. */
interface Circuit {
  readonly E: number;
  readonly R: number;
  readonly C: number;
  readonly source: number;
  readonly Rs: number;
}

interface Stretch {
  readonly time: number;
  readonly energy: number;
}

const NOTHING: Stretch = { time: 0, energy: 0 };

/** V at which a load of P W and the charging balance, below which it never leaves and above which it never gets. */
function roots({ E, R }: Circuit, P: number): readonly [number, number] | null {
  const root = E * E - 4 * P * R;
  if (root < 0) return null;
  const a = 0.5 * (E + Math.sqrt(root));
  // The product of the two, not their difference: it loses nothing where the load is small.
  return [a, (P * R) / a];
}

/** V that the capacitors come to with a load that begins at `from`: where it pulls them down again it lets go there, and they stay. */
function heldAt(circuit: Circuit, P: number, from: number): number {
  const found = roots(circuit, P);
  return found === null || from <= found[1] ? Math.min(from, circuit.E) : found[0];
}

/** s from one voltage to another, and J in the resistor; null where it does not get there. */
function stretch(circuit: Circuit, P: number, from: number, to: number): Stretch | null {
  const { R, C, source, Rs } = circuit;
  const found = roots(circuit, P);
  if (found === null) return null;
  const [a, b] = found;
  if (to >= a || (P > 0 && from <= b)) return null;
  // ln of how much nearer it has come to the upper root, and how much farther from the lower one.
  const nearer = elementary.log((a - from) / (a - to));
  const farther = b > 0 ? elementary.log((to - b) / (from - b)) : 0;
  const time = ((C * R) / (a - b)) * (a * nearer + b * farther);
  // (source - V)^2 V / ((V - a)(V - b)) = V + a + b - 2 source + A / (V - a) + B / (V - b).
  const A = (elementary.pow(source - a, 2) * a) / (a - b);
  const B = (-elementary.pow(source - b, 2) * b) / (a - b);
  const through = 0.5 * (to * to - from * from) + (a + b - 2 * source) * (to - from) - A * nearer + B * farther;
  return { time, energy: (-(C * R) / Rs) * through };
}

/** s in which a resistor across the capacitors takes them from one voltage down to another: R C ln(V0/V1). */
export function dischargeTime(voltage: number, limit: number, capacitance: number, bleed: number): number {
  return voltage > limit ? bleed * capacitance * elementary.log(voltage / limit) : 0;
}

/** J in capacitors: C V^2 / 2. */
export function storedEnergy(voltage: number, capacitance: number): number {
  return 0.5 * capacitance * voltage * voltage;
}

/**
 * Voltages that capacitors have to come down to, as examples of where such a figure stands; which one binds a car is for the user to
 * say. From memory: ISO 6469-3 has circuits above 60 V dc in voltage class B; UN Regulation No. 100 (and 94, 95 after a crash) asks
 * for 60 V dc or less.
 */
export const SAFE_VOLTAGES = [
  { name: 'ISO 6469-3', voltage: 60 },
  { name: 'UN R100', voltage: 60 },
] as const;
