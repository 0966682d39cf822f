/** What car it is that an answer is about: a few words for each of its parts. */
import type { Car, Drive, Pack } from '../../model/car.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';
import { packEnergy } from '../../model/pack/energy.ts';
import type { CarSketch } from '../document/outcome.ts';
import { entryOf, type LocatedMap } from '../document/located.ts';
import { type Described, digits, figure } from '../../units/rounding.ts';
import type { System } from '../../units.ts';

const MASS: Described = { unit: 'kg', display: { metric: 'kg', imperial: 'lb' } };
const POWER: Described = { unit: 'W', display: { metric: 'kW', imperial: 'hp' } };
const TORQUE: Described = { unit: 'N m', display: { metric: 'N m', imperial: 'lbf ft' } };
const WARMTH: Described = { unit: 'K', display: { metric: 'degC', imperial: 'degF' } };
const ENERGY: Described = { unit: 'J', display: { metric: 'kWh', imperial: 'kWh' } };

/** Parts of a car that have words of their own below. */
const TOLD: readonly string[] = [
  'mass',
  'driver',
  'load',
  'front_share',
  'tyres',
  'front_tyres',
  'rear_tyres',
  'drive',
  'pack',
];

/**
 * @param map as it is written, with what it takes from another car. @param own what this car says itself. @param from the car that it is made
 * from; null for one of its own.
 */
export function sketchOf(car: Car, map: LocatedMap, own: LocatedMap, from: string | null, system: System): CarSketch {
  const drives = car.drives.map(drive => driveWords(drive, system)).join('; ');
  const parts = [
    massWords(car, system),
    `${Math.round(100 * car.body.frontShare)} % on the front axle`,
    drives,
    tyreWords(map),
    ...packWords(car.pack, system),
  ];
  const [told, besides] = [true, false].map(wanted =>
    own.entries
      .map(({ key }) => key.text)
      .filter(key => TOLD.includes(key) === wanted)
      .map(key => key.replaceAll('_', ' ')),
  );
  return { from, parts, told: told ?? [], besides: besides ?? [] };
}

/** `1165 kg, with driver 75 kg and load 40 kg 1280 kg`. */
function massWords({ body }: Car, system: System): string {
  const kg = (value: number): string => figure(value, MASS, system, 0);
  const aboard = body.load > 0 ? `driver and ${kg(body.load)} of load` : 'driver';
  return `${kg(body.mass)}, ${kg(loadedMass(body))} with ${aboard}`;
}

const FREE = ', no traction control';

function driveWords({ axle, unit, ratio, gearbox, traction }: Drive, system: System): string {
  const torque = unit.table === null ? unit.peakTorque : Math.max(...unit.table.torque);
  const power =
    unit.table === null
      ? unit.peakPower
      : Math.max(...unit.table.speed.map((speed, k) => speed * (unit.table?.torque[k] ?? 0)));
  const gears =
    gearbox === undefined || gearbox.gears.length === 0
      ? `ratio ${digits(ratio, 2)}`
      : `gears ${gearbox.gears.map(gear => digits(gear.ratio, 2)).join(', ')} on ${digits(ratio, 2)}`;
  return `${axle}-wheel drive, ${figure(power, POWER, system, 0)} and ${figure(torque, TORQUE, system, 0)} at most, ${gears}${traction.policy === 'spin' ? FREE : ''}`;
}

/** Size and kind, as they are written: what is on the sidewall of one axle, or of each. */
function tyreWords(map: LocatedMap): string {
  return (['tyres', 'front_tyres', 'rear_tyres'] as const)
    .flatMap(key => {
      const node = entryOf(map, key)?.value;
      if (node === undefined) return [];
      const text = (name: string): string => {
        const value = node.kind === 'map' ? entryOf(node, name)?.value : undefined;
        return value?.kind === 'scalar' ? value.text : '';
      };
      const kind = node.kind === 'scalar' ? node.text : text('from');
      const words = [text('size'), kind.replace(/^tyre_/u, '').replaceAll('_', ' ')].filter(word => word !== '');
      return words.length === 0 ? [] : [`${key.replaceAll('_', ' ')}: ${words.join(', ')}`];
    })
    .join('; ');
}

/** Cells, voltage, energy and current. */
function packWords(pack: Pack, system: System): readonly string[] {
  const { voltage, whole, used } = packEnergy(pack);
  return [
    `pack of ${pack.series} cells in series, ${pack.parallel} in parallel`,
    `${digits(voltage, 0)} V on average, ${digits(pack.maxVoltage, 0)} V when full`,
    `${figure(whole, ENERGY, system)}, of which ${figure(used, ENERGY, system)} are used`,
    `${digits(pack.maxCurrent, 0)} A at most`,
    pack.heater === undefined
      ? ''
      : `heated with ${digits(pack.heater.power, 0)} W up to ${figure(pack.heater.until, WARMTH, system, 0)}`,
  ];
}
