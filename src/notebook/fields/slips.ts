/** What was meant by usual slips in fields: words of the trade for a choice, a pack by its energy, a count with its letter, a list for a range. */
import { PERSON } from '../../model/fields/person.ts';
import type { Field, Fields, NumberField, NumbersField } from '../../model/fields/field.ts';
import { shippedPart } from '../../model/parts/shipped.ts';
import { readQuantity, UnitError } from '../../units.ts';
import type { LocatedNode } from '../document/located.ts';
import { isRise } from './describe.ts';

/** What to write, and in place of which list of words. */
interface Meant {
  readonly cure: string;
  /** '' where what is expected anyhow says enough. */
  readonly expected: string;
}

const NOTHING: Meant = { cure: '', expected: '' };

const CHOICES: ReadonlyMap<string, readonly string[]> = new Map([
  ['back', ['rear']],
  ['rwd', ['rear']],
  ['fwd', ['front']],
  ['awd', ['both']],
  ['4wd', ['both']],
  ['4x4', ['both']],
  ['all', ['both']],
  ['asphalt', ['dry']],
  ['rain', ['wet']],
  ['off', ['none', 'no']],
  ['on', ['yes']],
  ['true', ['yes']],
  ['false', ['no', 'none']],
  ['electric', ['resistive']],
  ['ptc', ['resistive']],
  ['heat_pump', ['heat pump']],
  ['heatpump', ['heat pump']],
]);

/** One of the choices that a word of the trade stands for; '' for none. */
export function choiceMeant(text: string, choices: readonly string[]): string {
  const own = CHOICES.get(text.trim().toLowerCase()) ?? [];
  return own.find(word => choices.includes(word)) ?? '';
}

const MADE = 'what its cells make of it: pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }';
const TWO_DRIVES = 'drive: { ... } for one axle and second_drive: { ... } for the other';
const HEATED = 'cabin: { heater: resistive } or { heater: heat pump } as a line of the car cell';
const ENERGIES = ['energy', 'kwh', 'capacity', 'capacity_kwh', 'battery_capacity', 'battery_size'];
const TOLD: { readonly [key: string]: readonly [besides: string, expected: string] } = {
  energy: ['series', MADE],
  kwh: ['series', MADE],
  capacity_kwh: ['series', MADE],
  voltage: ['series', MADE],
  nominal_voltage: ['series', MADE],
  chemistry: ['series', 'the cell itself: cell: cell_lfp_100ah, or another of `axlewatt cells part.cell`'],
  battery_capacity: ['pack', MADE],
  battery_size: ['pack', MADE],
  range: ['pack', 'a range cell, which works it out'],
  front: ['dry_peak', 'front_tyres: { ... } as a line of the car'],
  rear: ['dry_peak', 'rear_tyres: { ... } as a line of the car'],
  drives: ['second_drive', TWO_DRIVES],
  heating: ['soaked', HEATED],
  heater: ['soaked', HEATED],
  front_drive: ['second_drive', TWO_DRIVES],
  rear_drive: ['second_drive', TWO_DRIVES],
  power: [
    'supply',
    'the wall in supply: { current: 16 A, phases: 3 } or { dc_power: 50 kW }, the charger in the car cell',
  ],
};

/** What a key that is none is written as, in words that follow "expected"; '' where nothing is known of it. @param known keys beside it. */
export function keyTold(key: string, value: LocatedNode, known: readonly string[]): string {
  const energy = value.kind === 'scalar' && (known.includes('series') || known.includes('pack')) ? value.text : '';
  if (ENERGIES.includes(key.toLowerCase()) && energy !== '') {
    const { cure } = packOf(/^[\d.]+$/u.test(energy) ? `${energy} kWh` : energy);
    if (cure !== '') return `what its cells make of it: pack: ${cure}`;
  }
  if (key.toLowerCase() === 'power' && known.includes('dc_power')) return wallTold(value);
  const [besides, expected] = Object.hasOwn(TOLD, key.toLowerCase()) ? (TOLD[key.toLowerCase()] ?? []) : [];
  return besides !== undefined && known.includes(besides) ? (expected ?? '') : '';
}

/** V between phase and neutral that a wall is taken to have: IEC 60038. */
const WALL = 230;
/** A that a phase of a wall gives at most as a rule. Common practice, no source. */
const PHASE = 32;

/** The power of a wall as it is written: by its current, or as that of a station. */
function wallTold(value: LocatedNode): string {
  const power = value.kind === 'scalar' ? valueIn(value.text, 'W') : null;
  const station = `dc_power: ${value.kind === 'scalar' ? value.text.trim() : '...'} of a station of direct current`;
  if (power === null || !(power > 0)) return `what the wall gives: current: 16 A with phases: 1 to 3, or ${station}`;
  return `what the wall gives: ${wallOf(power)} for this power at ${WALL} V, or ${station}`;
}

/** `current: 16 A, phases: 3`. @param power W. */
function wallOf(power: number): string {
  const phases = power > 1.05 * WALL * PHASE ? 3 : 1;
  const current = Number((power / (WALL * phases)).toPrecision(3));
  return `current: ${current} A${phases > 1 ? `, phases: ${phases}` : ''}`;
}

/** `{ current: 16 A }` for `supply: 3.6 kW`; '' for what is no power of a wall: a station gives more. */
export function wallMeant(text: string, fields: Fields): string {
  const power = 'dcPower' in fields ? valueIn(text, 'W') : null;
  return power !== null && power > 0 && power <= 3.15 * WALL * PHASE ? `{ ${wallOf(power)} }` : '';
}

/** `- { path: car.pack.parallel, from: 1, to: 4 }` for `car.pack.parallel from 1 to 4`; '' for anything else. */
export function rowMeant(node: LocatedNode, fields: Fields): string {
  if (node.kind !== 'scalar' || !('path' in fields && 'from' in fields && 'to' in fields)) return '';
  const [, path, from, to] =
    /^([\w.]+)[\s:,]+(?:from\s+)?([\d.].*?)\s*(?:to|\.\.|-|–)\s*([\d.].*)$/iu.exec(node.text.trim()) ?? [];
  return path === undefined ? '' : `- { path: ${path}, from: ${from}, to: ${to} }`;
}

const KEYS: ReadonlyMap<string, readonly string[]> = new Map([
  ['torque_speed', ['table_speed']],
  ['speed_table', ['table_speed']],
  ['rating', ['rated']],
  ['rated_current', ['rated']],
  ['count', ['steps']],
  ['points', ['steps']],
  ['runs', ['of']],
  ['run', ['of']],
  ['vary', ['over']],
  ['parameters', ['over']],
  ['remove', ['out']],
  ['removed', ['out']],
  ['add', ['in']],
  ['added', ['in']],
  ['half_shafts', ['shafts']],
  ['half_shaft', ['shafts']],
  ['drive_shafts', ['shafts']],
  ['pack_temperature', ['soaked']],
  ['cross_section', ['section']],
  ['area', ['section']],
  ['heading', ['direction']],
  ['way', ['direction']],
]);

/** The key among those that may stand here that a list of words of the trade knows; '' for none. */
export function fieldMeant(key: string, value: LocatedNode, known: readonly string[]): string {
  // `torque: [..]` is a table, `torque: 300 N m` the peak.
  const own = key === 'torque' && value.kind === 'list' ? ['table_torque'] : (KEYS.get(key.toLowerCase()) ?? []);
  return own.find(each => known.includes(each)) ?? '';
}

/** What a value means that stands in the place of the name of a part: `pack: 42 kWh`, `pack: 96s2p`, `unit: 150 kW`. */
export function partMeant(part: string, text: string): Meant {
  if (part === 'unit') return unitOf(text);
  if (part === 'cabin' && /^(?:heat|yes|on|true)/iu.test(text)) {
    return { cure: '{ heater: resistive }', expected: 'what heats it: resistive or heat pump' };
  }
  return part === 'pack' ? packOf(text) : NOTHING;
}

/** Cells in series that a pack of a car has as a rule: 350 V. Common practice, no source. */
const SERIES = 96;

function packOf(text: string): Meant {
  if (shippedPart('cell', text) !== null) {
    return { cure: `{ cell: ${text}, series: ${SERIES}, parallel: 2 }`, expected: 'a pack of such cells' };
  }
  const [, series, parallel] = /^(\d+)\s*s\s*(\d+)\s*p$/iu.exec(text.trim()) ?? [];
  if (series !== undefined) {
    const cure = `{ cell: cell_nmc_60ah, series: ${series}, parallel: ${parallel ?? 1} }`;
    return { cure, expected: 'the cells beside their number' };
  }
  const energy = valueIn(text, 'J');
  const one = cellEnergy('cell_nmc_60ah');
  if (energy === null || !(energy >= 3.6e6)) return NOTHING;
  const parallel2 = Math.max(1, Math.round(energy / (SERIES * one)));
  const held = ((SERIES * parallel2 * one) / 3.6e6).toFixed(1);
  return {
    cure: `{ cell: cell_nmc_60ah, series: ${SERIES}, parallel: ${parallel2} }`,
    expected: `the name of a pack, or its cells, which give the energy: ${SERIES} x ${parallel2} of cell_nmc_60ah hold ${held} kWh`,
  };
}

/** J in one cell that ships: its capacity at the mean of its open-circuit voltage, as points of charge give it. */
function cellEnergy(name: string): number {
  const values = shippedPart('cell', name)?.values as
    | { readonly capacity: number; readonly ocvCharge: readonly number[]; readonly ocvVoltage: readonly number[] }
    | undefined;
  if (values === undefined) throw new Error(`no cell ${name} ships`);
  const { capacity, ocvCharge, ocvVoltage } = values;
  let mean = 0;
  for (const [i, charge] of ocvCharge.entries()) {
    const [next, above] = [ocvCharge[i + 1], ocvVoltage[i + 1]];
    if (next !== undefined && above !== undefined) mean += 0.5 * ((ocvVoltage[i] ?? above) + above) * (next - charge);
  }
  return capacity * mean;
}

function unitOf(text: string): Meant {
  if (valueIn(text, 'W') === null) return NOTHING;
  const cure = `{ peak_power: ${text.trim()}, peak_torque: ... }`;
  return { cure: '', expected: `the name of a unit, or what it gives: ${cure} with its torque` };
}

function valueIn(text: string, unit: string): number | null {
  try {
    return readQuantity(text, unit).value;
  } catch (error) {
    if (error instanceof UnitError) return null;
    throw error;
  }
}

/** What a text means that is no number of a field: `96s`, `1200 to 1300 kg`, `5 deg` of a slope; '' for nothing known. */
export function numberMeant(text: string, field: NumberField | NumbersField): string {
  const bare = text.trim();
  const counted = field.kind === 'number' && field.whole === true ? /^(\d+)\s*[sp]$/iu.exec(bare)?.[1] : undefined;
  if (counted !== undefined) return counted;
  const [, low, first, high, unit = ''] =
    /^([\d.]+)\s*(\D*?)\s*(?:to|bis|and|-|–|—)\s*([\d.]+)\s*(.*)$/iu.exec(bare) ?? [];
  if (low !== undefined && high !== undefined) return ranged(`${low} ${first || unit}`, `${high} ${unit}`, field);
  const persons =
    field.unit === 'kg' ? /^(\d+)\s*(?:persons?|people|adults?|passengers?)$/iu.exec(bare)?.[1] : undefined;
  if (persons !== undefined) return `${Number(persons) * PERSON} kg`;
  if (isRise(field) && /^[\d.]+$/u.test(bare)) return `${bare} K`;
  const degrees = /^(-?[\d.]+)\s*(?:deg|degrees|°)$/iu.exec(bare)?.[1];
  if (degrees === undefined || !isShare(field)) return '';
  return `${Number((100 * Math.tan((Number(degrees) * Math.PI) / 180)).toPrecision(3))} %`;
}

const isShare = (field: NumberField | NumbersField): boolean => field.display?.metric === '%';

function ranged(low: string, high: string, { unit, min, max }: NumberField | NumbersField): string {
  const [least, most] = [valueIn(low, unit), valueIn(high, unit)];
  if (least === null || most === null || least >= most || most < min || most > max) return '';
  // `0-100 km/h` says where it begins, which another field does.
  if (least === 0 && min > 0) return high.trim();
  return least >= min ? `${low.trim()} .. ${high.trim()}` : '';
}

/** What `from: 10 to 80 %` means, in words that follow "expected": no spread, but the ends of a way, each of which has a line; '' for anything else. */
export function endsMeant(text: string, path: string, { unit, min, max }: NumberField | NumbersField): string {
  const [, low = '', first = '', high = '', last = ''] =
    /^([\d.]+)\s*(\D*?)\s*(?:to|bis|-|–|—)\s*([\d.]+)\s*(.*)$/iu.exec(text.trim()) ?? [];
  const [from, to] = [`${low} ${first || last}`.trim(), `${high} ${last}`.trim()];
  const fits = [from, to].every(end => {
    const value = valueIn(end, unit);
    return value !== null && value >= min && value <= max;
  });
  return path.endsWith('.from') && fits ? `a line for each: from: ${from} and to: ${to}` : '';
}

/** What a number beyond its limits means: 56/44 for 56 %, 95 for 0.95, a ratio the wrong way round; '' for nothing known. */
export function outsideMeant(shown: string, path: string, field: NumberField | NumbersField): string {
  const fits = (value: number): boolean => value >= field.min && value <= field.max;
  const degrees = isRise(field) ? /^\s*([\d.]+)\s*(?:°\s*|deg\s*|degrees\s*)?C?\s*$/iu.exec(shown)?.[1] : undefined;
  if (degrees !== undefined) return fits(Number(degrees)) ? `${degrees} K` : '';
  const [, first, second] = /^\s*(\d+)\s*\/\s*(\d+)\s*$/u.exec(shown) ?? [];
  if (isShare(field) && Number(first) + Number(second) === 100 && fits(Number(first) / 100)) return `${first} %`;
  if (!/^\s*[\d.]+\s*$/u.test(shown) || field.unit !== '1') return '';
  const value = Number(shown);
  if (path.endsWith('.ratio') && value > 0 && value < field.min) {
    const inverse = Number((1 / value).toPrecision(3));
    return fits(inverse) ? String(inverse) : '';
  }
  return value >= 5 && field.max <= 5 && fits(value / 100) ? String(Number((value / 100).toPrecision(6))) : '';
}

/** What a list means where one number is expected: the ends of a range, the ratios of a gearbox; '' for nothing known. */
export function listMeant(node: LocatedNode, key: string, field: Field): string {
  if (node.kind !== 'list' || field.kind !== 'number') return '';
  const texts = node.items.map(item => (item.kind === 'scalar' ? item.text.trim() : ''));
  if (key === 'ratio' && texts.length > 1 && texts.every(text => Number(text) > 0)) {
    return `gearbox: { gears: [${texts.join(', ')}] }`;
  }
  const [low, high] = texts;
  return texts.length === 2 && low !== undefined && high !== undefined ? ranged(low, high, field) : '';
}

/** What to write in place of a list that stands for a group, in words that follow "expected"; '' where nothing is known of it. */
export function listTold(key: string, node: LocatedNode): string {
  return key === 'drive' && node.kind === 'list' && node.items.every(item => item.kind === 'map') ? TWO_DRIVES : '';
}

/** The group that a list in its place is for: `gearbox: [3.5, 2.1]`; '' where it has not one list that it needs. */
export function groupOfList(node: LocatedNode, fields: Fields): string {
  const lists = Object.entries(fields).filter(([, field]) => field.kind === 'numbers' && field.required === true);
  const [first] = lists;
  if (node.kind !== 'list' || first === undefined || lists.length > 1) return '';
  const texts = node.items.map(item => (item.kind === 'scalar' ? item.text.trim() : ''));
  return texts.every(text => Number(text) > 0) ? `{ ${first[0]}: [${texts.join(', ')}] }` : '';
}

/** The one field of a group that a bare word of switching off, or a share, is for; '' for none. */
export function switchMeant(text: string, fields: Fields): string {
  const bare = text.trim().toLowerCase();
  const kind = fields['kind'];
  const none = kind?.kind === 'choice' && kind.choices.includes('none');
  if (none && ['off', 'no', 'false', '0', '0 %'].includes(bare)) return '{ kind: none }';
  const share = fields['share'];
  return share?.kind === 'number' && /^[\d.]+ ?%$/u.test(bare) ? `{ share: ${text.trim()} }` : '';
}
