import { curveAt, curveThrough } from '../../../src/model/tables/curve.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import { CLOSED_FORM, EXACT } from '../check.ts';
import type { Check, Topic } from '../check.ts';
import { idealCar, roadWithDensity } from '../ideal.ts';
import { instant } from '../instant.ts';
import type { Instant } from '../instant.ts';

/** The pack alone: all its power goes to the auxiliaries. Negative charges it. */
function loaded(emf: number, resistance: number, power: number): Instant {
  return instant(idealCar({ mass: 1000, emf, resistance, auxiliaries: power }), roadWithDensity(), 1, 0);
}

function equation(
  id: string,
  what: string,
  expected: number,
  unit: string,
  computed: () => number,
  source = CLOSED_FORM,
): Check {
  return { id: `battery.${id}`, what, source, expected, computed, unit, tolerance: EXACT };
}

const EXAM = 'past examination question with its answer: 12.0 V, 1.0 ohm, 3.0 ohm';
const DATA =
  'C/32 measurement, data companion to an article in IEEE Trans. Instrumentation and Measurement (2025), mean of the straight ' +
  'lines between its points';

/** The smooth curve of the project against the straight lines of the source: near, not equal. */
function meanVoltage(cell: string, expected: number): Check {
  return {
    id: `battery.mean.${cell}`,
    what: `mean open-circuit voltage of ${cell}`,
    source: DATA,
    expected,
    computed: () => {
      const values = shippedPart('cell', cell)?.values;
      const curve = curveThrough(values?.ocvCharge ?? [], values?.ocvVoltage ?? []);
      const panels = 20_000;
      let sum = 0;
      for (let k = 0; k < panels; k++) sum += curveAt(curve, (k + 0.5) / panels);
      return sum / panels;
    },
    unit: 'V',
    tolerance: { absolute: 0.01 },
  };
}

const full = () => loaded(350, 0.12, 90_000);
const charging = () => loaded(350, 0.12, -40_000);

/** W that the pack can give at most: where the drive, with torque to spare, settles against it. */
function mostPower(): number {
  const car = idealCar({ mass: 1e6, emf: 350, resistance: 0.12, power: 1e9, force: 1e6 });
  return instant(car, roadWithDensity(), 20).busPower;
}

export const battery: Topic = {
  title: 'Battery',
  checks: [
    equation(
      'exam.current',
      'current of 12 V behind 1 ohm into 3 ohm (27 W)',
      3,
      'A',
      () => loaded(12, 1, 27).current,
      EXAM,
    ),
    equation('exam.total', 'power of the electromotive force', 36, 'W', () => loaded(12, 1, 27).power.chemical, EXAM),
    equation('power.current', '90 kW from 350 V behind 0.12 ohm', 284.989346639, 'A', () => full().current),
    equation('power.voltage', 'terminal voltage there', 315.801278403, 'V', () => full().voltage),
    equation('power.heat', 'heat there', 9746.27132375, 'W', () => full().power.packHeat),
    equation('charge.current', 'charging with 40 kW', -110.127518727, 'A', () => charging().current),
    equation('charge.voltage', 'terminal voltage there', 363.215302247, 'V', () => charging().voltage),
    {
      ...equation('power.most', 'most power it gives, E² / 4R', 255_208.333333, 'W', mostPower),
      tolerance: { relative: 1e-9 },
    },
    meanVoltage('cell_nmc_21700', 3.71972),
    meanVoltage('cell_lfp_18650', 3.268334),
  ],
};
