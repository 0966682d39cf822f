/** Everything a performance sheet answers with: label, units, meaning; and which standard names which test. */
import { output, seconds, share, speed, temperature, words } from '../output.ts';
import type { Output } from '../result.ts';

/** One line of the sheet. */
export interface SheetTest {
  /** Key of its value in the summary. */
  readonly key: string;
  /** Key of the word for what sets it. */
  readonly limiter: string;
  /** The standard that names it; '' where none is known. From memory: the texts were not at hand. */
  readonly standard: string;
  /** Loaded to the gross mass. */
  readonly gross: boolean;
}

const ISO = 'ISO 8715';
const SAE = 'SAE J1666';

const LIMITED = 'what holds the car back there';
const STEADY = 'greatest speed that is kept up, at the charge of the start';
const START = 'steepest slope, straight up, that it moves off on from rest';
const HOLD = 'steepest slope on which the drive alone keeps it from rolling back; for moments only';

/** The tests that are done at the test mass and at the gross mass alike. */
function hills(suffix: '' | '_gross'): { readonly [key: string]: Output } {
  const at = suffix === '' ? '' : ', gross mass';
  return {
    [`speed_4_percent${suffix}`]: speed(`speed on a 4 % slope${at}`, STEADY),
    [`speed_4_percent${suffix}_limiter`]: words(`speed on 4 %${at} is set by`, LIMITED),
    [`speed_12_percent${suffix}`]: speed(`speed on a 12 % slope${at}`, STEADY),
    [`speed_12_percent${suffix}_limiter`]: words(`speed on 12 %${at} is set by`, LIMITED),
    [`start_slope${suffix}`]: share(`steepest start${at}`, START),
    [`start_slope${suffix}_limiter`]: words(`steepest start${at} is set by`, LIMITED),
    [`start_slope${suffix}_grip`]: share(`steepest start${at}, by the tyres alone`, 'with a drive that has no limit'),
    [`start_slope${suffix}_drive`]: share(`steepest start${at}, by the drive alone`, 'with tyres that never slip away'),
    [`hold_slope${suffix}`]: share(`steepest hold${at}`, HOLD),
    [`hold_slope${suffix}_limiter`]: words(`steepest hold${at} is set by`, LIMITED),
    [`hold_slope${suffix}_grip`]: share(`steepest hold${at}, by the tyres alone`, 'with a drive that has no limit'),
    [`hold_slope${suffix}_drive`]: share(`steepest hold${at}, by the drive alone`, 'with tyres that never slip away'),
  };
}

/** The keys of a sheet's summary in order of display. */
export const sheetOutputs: { readonly [key: string]: Output } = {
  test_mass: output('test mass', 'kg', 'kg', 'lb', 'kerb mass, driver and load as the car cell says'),
  gross_mass: output('gross mass', 'kg', 'kg', 'lb', 'as given'),
  top_speed: speed(
    'top speed',
    'where drive and resistance balance, at the charge of the start; ISO 8715 calls it maximum speed',
  ),
  top_speed_limiter: words('top speed is set by', LIMITED),
  top_speed_time: seconds(
    'nearly the top speed lasts',
    '99 % of it, starting cold; looked at for 1800 s: that long, or longer',
  ),
  thirty_minute_speed: speed('30-minute speed', 'greatest speed that is held for 1800 s, starting cold'),
  thirty_minute_speed_limiter: words('30-minute speed is set by', 'what ends a hold at a speed a little higher'),
  thirty_minute_unit_temperature: temperature('drive unit after it', 'lumped, of the hotter one'),
  thirty_minute_pack_temperature: temperature('pack after it', 'lumped'),
  thirty_minute_charge: share('state of charge after it', 'at the end of the 1800 s'),
  time_to_50_km_h: seconds('0 to 50 km/h', 'full pedal from rest'),
  time_to_50_km_h_limiter: words('0 to 50 km/h is set by', 'what holds the car back for the longest part'),
  time_50_to_80_km_h: seconds('50 to 80 km/h', 'full pedal from 50 km/h, no shift down'),
  time_50_to_80_km_h_limiter: words('50 to 80 km/h is set by', 'what holds the car back for the longest part'),
  time_to_100_km_h: seconds('0 to 100 km/h', 'full pedal from rest'),
  time_to_100_km_h_limiter: words('0 to 100 km/h is set by', 'what holds the car back for the longest part'),
  ...hills(''),
  ...hills('_gross'),
};

function test(key: string, standard: string): SheetTest {
  return { key, limiter: `${key}_limiter`, standard, gross: key.endsWith('_gross') };
}

/** The tests in the order of the sheet. */
export const SHEET_TESTS: readonly SheetTest[] = [
  test('top_speed', ISO),
  test('thirty_minute_speed', ISO),
  test('time_to_50_km_h', ISO),
  test('time_50_to_80_km_h', ISO),
  test('time_to_100_km_h', ''),
  test('speed_4_percent', SAE),
  test('speed_12_percent', SAE),
  test('start_slope', SAE),
  test('hold_slope', ''),
  test('speed_4_percent_gross', ISO),
  test('speed_12_percent_gross', ISO),
  test('start_slope_gross', ISO),
  test('hold_slope_gross', ''),
];
