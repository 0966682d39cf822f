/** Capacitors on the bus: how they are charged before the contactor closes, and discharged afterwards. */
import { dischargeTime, precharged, SAFE_VOLTAGES, storedEnergy } from '../../../model/duty/precharge.ts';
import type { Precharge, Precharged } from '../../../model/duty/precharge.ts';
import { amperes, output, seconds, volts } from '../../output.ts';
import type { Output } from '../../result.ts';
import type { Said } from '../line.ts';

const joules = (label: string, doc: string): Output => output(label, 'J', 'J', 'J', doc);
const watts = (label: string, doc: string): Output => output(label, 'W', 'W', 'W', doc);

export interface PrechargeSheet extends Precharge {
  readonly timeLimit: number | undefined;
  readonly energyLimit: number | undefined;
  readonly powerLimit: number | undefined;
  /** A that the contactor may close on. */
  readonly closingLimit: number | undefined;
}

export function prechargeLines(sheet: PrechargeSheet): readonly Said[] {
  const found = precharged(sheet);
  const percent = (100 * sheet.share).toFixed(1).replace(/\.0$/, '');
  const part = 'pre-charge';
  const lost = found.time === null ? whyNever(sheet, found) : '';
  const never = found.time === null;
  return [
    {
      key: 'precharge_time',
      part,
      output: seconds(
        `time to ${percent} % of the voltage`,
        'from the highest voltage of the pack: -RC ln(1 - x) without a load',
      ),
      value: found.time,
      limit: sheet.timeLimit ?? null,
      note: lost,
      ...(never && { verdict: 'fail' as const }),
    },
    {
      key: 'precharge_voltage',
      part,
      output: volts('voltage that it comes to', 'if the contactor stayed open'),
      value: found.settles,
      verdict: 'figure',
    },
    {
      key: 'precharge_energy',
      part: 'pre-charge resistor',
      output: joules('heat in the resistor', 'of one pre-charge'),
      value: found.energy,
      limit: sheet.energyLimit ?? null,
      note: found.time === null ? `it never ends: ${found.stayingPower.toFixed(0)} W stay in the resistor` : '',
      ...(never && { verdict: 'figure' as const }),
    },
    {
      key: 'precharge_power',
      part: 'pre-charge resistor',
      output: watts('power in the resistor', 'when it begins'),
      value: found.peakPower,
      limit: sheet.powerLimit ?? null,
    },
    {
      key: 'closing_current',
      part: 'contactor',
      output: amperes(
        'current on which it closes',
        'what is missing in voltage over the resistance of pack and wiring',
      ),
      value: found.closingCurrent,
      limit: sheet.closingLimit ?? null,
      note:
        found.time === null ? 'it must not close' : found.closingCurrent === null ? 'the pack has no resistance' : '',
      ...(never && { verdict: 'figure' as const }),
    },
  ];
}

function whyNever({ bleed, load, voltage, share }: Precharge, { settles }: Precharged): string {
  const by = [
    ...(load !== undefined && load.power > 0 ? [`the load of ${load.power} W`] : []),
    ...(bleed === undefined ? [] : [`the bleed resistor of ${bleed} ohm`]),
  ].join(' and ');
  return `it never gets there: ${by} holds it at ${settles.toFixed(1)} V of the ${(share * voltage).toFixed(1)} V that are wished for; the load off until then, or a smaller resistor`;
}

export interface DischargeSheet {
  /** V, F, ohm. */
  readonly voltage: number;
  readonly capacitance: number;
  readonly bleed: number;
  readonly limit: string;
  /** V; of the limit where left out. */
  readonly own: number | undefined;
  readonly within: number | undefined;
}

export function dischargeLines({ voltage, capacitance, bleed, limit, own, within }: DischargeSheet): readonly Said[] {
  const to = own ?? SAFE_VOLTAGES.find(({ name }) => name === limit)?.voltage ?? Number.NaN;
  const by = limit === 'own' ? '' : ` (${limit}, from memory: look it up)`;
  return [
    {
      key: 'discharge_time',
      part: 'discharge',
      output: seconds(
        `time to ${to} V${by}`,
        'from the highest voltage of the pack, the contactors open: RC ln(V0/V1)',
      ),
      value: dischargeTime(voltage, to, capacitance, bleed),
      limit: within ?? null,
    },
    {
      key: 'discharge_energy',
      part: 'discharge',
      output: joules(`energy left at ${to} V`, 'C V^2 / 2'),
      value: storedEnergy(Math.min(to, voltage), capacitance),
      verdict: 'figure',
    },
    {
      key: 'stored_energy',
      part: 'discharge',
      output: joules('energy in the capacitors', 'at the highest voltage of the pack'),
      value: storedEnergy(voltage, capacitance),
      verdict: 'figure',
    },
    {
      key: 'bleed_power',
      part: 'discharge',
      output: watts('power in the bleed resistor', 'at the highest voltage of the pack'),
      value: (voltage * voltage) / bleed,
      verdict: 'figure',
    },
  ];
}
