/** The units of a log, by all the ways they are written in headers. Kept apart from units.ts, which is made for prose. */

/** What a column of a log can be. */
export type ColumnKind = 'time' | 'speed' | 'latitude' | 'longitude' | 'altitude' | BusKind;
/** What the bus of a car tells beside that: speed of the driven wheels, power out of the pack, its voltage and current. */
export type BusKind = 'wheel' | 'power' | 'voltage' | 'current';

interface LogUnit {
  readonly unit: string;
  /** What a number in it is multiplied by, to be in s, m/s, degrees or m. */
  readonly factor: number;
  readonly also: readonly string[];
}

const DEGREES: readonly LogUnit[] = [{ unit: 'deg', factor: 1, also: ['°', 'degree', 'degrees'] }];

/** 1 mi is 1609.344 m, 1 nautical mile 1852 m (NIST Special Publication 811, appendix B). */
const SPEEDS: readonly LogUnit[] = [
  { unit: 'km/h', factor: 1 / 3.6, also: ['kmh', 'km h', 'kph', 'kmph', 'kilometers/hour', 'kilometres/hour'] },
  { unit: 'mph', factor: 0.44704, also: ['mi/h', 'mi h', 'miles/hour'] },
  { unit: 'm/s', factor: 1, also: ['m s', 'mps', 'ms', 'meters/second', 'metres/second'] },
  { unit: 'kn', factor: 1852 / 3600, also: ['kt', 'kts', 'knot', 'knots', 'knoten', 'noeuds'] },
];

/** Turns a minute of a wheel, in rad/s: the radius of its tyre makes a speed of it. */
export const TURNS = 'rpm';

const UNITS: { readonly [kind in ColumnKind]: readonly LogUnit[] } = {
  time: [
    {
      unit: 's',
      factor: 1,
      also: ['sec', 'secs', 'second', 'seconds', 'sek', 'sekunden', 'secondes', 'segundos', 'secondi'],
    },
    {
      unit: 'ms',
      factor: 1e-3,
      also: ['msec', 'millis', 'millisecond', 'milliseconds', 'millisekunden', 'millisecondes'],
    },
    { unit: 'us', factor: 1e-6, also: ['µs', 'μs', 'microsecond', 'microseconds'] },
    { unit: 'min', factor: 60, also: ['minute', 'minutes', 'minuten', 'minutos', 'minuti'] },
    { unit: 'h', factor: 3600, also: ['hr', 'hour', 'hours', 'std', 'stunden', 'heures', 'horas', 'ore'] },
  ],
  speed: SPEEDS,
  latitude: DEGREES,
  longitude: DEGREES,
  altitude: [
    { unit: 'm', factor: 1, also: ['metre', 'metres', 'meter', 'meters', 'metros', 'metri'] },
    { unit: 'ft', factor: 0.3048, also: ['foot', 'feet'] },
  ],
  wheel: [...SPEEDS, { unit: TURNS, factor: Math.PI / 30, also: ['1/min', 'r/min', 'min-1', 'u/min', 'tr/min'] }],
  power: [
    { unit: 'kW', factor: 1000, also: ['k w', 'kilowatt', 'kilowatts'] },
    { unit: 'W', factor: 1, also: ['watt', 'watts'] },
    // Exactly 550 ft lbf/s, and 75 kgf m/s (NIST Special Publication 811, appendix B).
    { unit: 'hp', factor: 745.6998715822702, also: ['bhp'] },
    { unit: 'PS', factor: 735.49875, also: ['cv', 'ch'] },
  ],
  voltage: [{ unit: 'V', factor: 1, also: ['volt', 'volts'] }],
  current: [{ unit: 'A', factor: 1, also: ['amp', 'amps', 'ampere', 'amperes'] }],
};

/** The unit behind a spelling, as `unitsOf` lists it; undefined where it is none of this kind. */
export function unitOf(kind: ColumnKind, written: string): string | undefined {
  const word = written.trim().toLowerCase().replaceAll('_', ' ');
  return UNITS[kind].find(({ unit, also }) => unit.toLowerCase() === word || also.includes(word))?.unit;
}

/** What a number in this unit is multiplied by to be in s, m/s, degrees or m. */
export function factorOf(kind: ColumnKind, unit: string): number {
  const found = UNITS[kind].find(each => each.unit === unit);
  if (found === undefined) throw new RangeError(`"${unit}" is no unit of ${kind}`);
  return found.factor;
}

/** The units of a kind, the usual one first. */
export function unitsOf(kind: ColumnKind): readonly string[] {
  return UNITS[kind].map(({ unit }) => unit);
}
