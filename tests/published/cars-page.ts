/** The part of docs/PROOF.md that shows every published car, the bad ones too. */
import { allTimes } from './checks/published-cars.ts';
import { oneConstant } from './blind-fits.ts';
import { againstBlind } from './blind-words.ts';
import { errorStatistics } from './error-statistics.ts';
import { errorFigures, errorOf, predictedTimes, ruleOfThumb } from './predicted-times.ts';
import type { PredictedTime } from './predicted-times.ts';
import { BARE_RULES, RULES } from './records.ts';

export function carsPage(): readonly string[] {
  const times = allTimes();
  const thumb = ruleOfThumb(times);
  return [
    '### How the records are read',
    '',
    'A record says: empty mass, peak power and torque, driven axle, wheelbase, width, height, rim and top speed. All else is a',
    'default of axlewatt (driver 75 kg, air of 20 °C, traction held; the pack is full), but for these rules',
    '(`tests/published/records.ts`). No number in them was fitted to a published time; which rules to add to the bare defaults was',
    'decided with the errors below in view, but for the first, which is that of the records on the dynamometer:',
    '',
    '- Full torque up to 16.3 m/s, which with printed torque and power gives the ratio; the motor turns as fast as the default says,',
    '  or faster where the printed top speed asks for it.',
    '- The free diameter of the tyre is the rim and twice 110 mm. Above 210 km/h (speed symbol H) it is `tyre_sport`.',
    '- “All” is two drives, each with its own inverter and each axle taking what it can; they share the ratings as the axle loads',
    '  share the weight while the torque lasts.',
    '- The pack is 96 cells of `cell_nmc_60ah` in series and as many in parallel as the peak power asks for.',
    '',
    '### How far off',
    '',
    'Error: predicted over published time less one. “One constant”: a constant times the bound 0.5 (m + 75 kg) v²/P, the constant for',
    'each car the median of time over bound of all the others. “Rule of thumb”: 1.55, the median of all of them. Quantiles with',
    'straight lines between the ordered values. The other rows read the records by one rule less, by none, and by other speeds up',
    'to which there is full torque.',
    '',
    '| | mean error | mean size | rms | median size | 90 % of the cars within | worst |',
    '|---|---:|---:|---:|---:|---:|---:|',
    figures('**axlewatt**', times),
    figures('one constant, each car left out', oneConstant(times)),
    figures('rule of thumb', thumb),
    figures('ratio from top speed and default greatest motor speed', predictedTimes({ ...RULES, corner: 'top speed' })),
    figures('two drives with half the ratings each', predictedTimes({ ...RULES, split: 'half' })),
    figures('default tyres', predictedTimes({ ...RULES, tyres: 'default' })),
    figures('bare defaults', predictedTimes(BARE_RULES)),
    figures('full torque up to 13 m/s', predictedTimes({ ...RULES, corner: 13 })),
    figures('full torque up to 18 m/s', predictedTimes({ ...RULES, corner: 18 })),
    '',
    ...againstBlind('one constant', times.map(errorOf), oneConstant(times).map(errorOf)),
    '',
    'Five records with the same motor, 100 kW and 260 N m (10, 11, 27, 28, 29), print 8.1 to 9.5 s at masses within 10 %, in no order',
    'of mass: no model of these figures alone follows that.',
    '',
    '### Each car',
    '',
    '| record | driven | kg | kW | N m | bound s | published s | predicted s | error | rule of thumb |',
    '|---:|---|---:|---:|---:|---:|---:|---:|---:|---:|',
    ...times.map((time, i) => row(time, thumb[i] ?? time)),
  ];
}

function figures(name: string, times: readonly PredictedTime[]): string {
  const { bias, mean, rms, median, ninetieth } = errorStatistics(times.map(errorOf));
  const { worst } = errorFigures(times);
  return `| ${name} | ${signed(bias)} | ${[mean, rms, median, ninetieth, worst].map(percent).join(' | ')} |`;
}

function row({ row: number, record, bound, published, predicted }: PredictedTime, thumb: PredictedTime): string {
  const cells = [
    String(number),
    record.drive,
    String(record.mass),
    (record.peakPower / 1000).toFixed(1),
    String(record.peakTorque),
    bound.toFixed(2),
    published.toFixed(1),
    predicted.toFixed(2),
    signed(predicted / published - 1),
    signed(errorOf(thumb)),
  ];
  return `| ${cells.join(' | ')} |`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function signed(share: number): string {
  const text = percent(share);
  return text.startsWith('-') ? text : `+${text}`;
}
