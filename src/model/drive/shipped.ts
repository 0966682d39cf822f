/** Generic drive units: motor, inverter and rotor of a single-speed electric car. */
import { lossSpreads, scaledLosses } from './losses.ts';
import { between } from '../parts/part.ts';
import type { UnitPart } from '../parts/part.ts';

const RPM = (2 * Math.PI) / 60;

const SOURCE =
  'peak torque and power ± 5 % as UN Regulation No. 85 lets a declared figure be off in production (from memory); peak torque to peak power as in an open data set of 53 electric cars on sale in 2020 (61 kW and 210 N m, 100 kW and 260 to 395 ' +
  'N m, 150 kW and 310 to 395 N m, 210 kW and 450 N m); losses as shares of the peak power: copper 6.5 % at peak torque as in Larminie & ' +
  'Lowry, Electric Vehicle Technology Explained, eq. 7.23, iron 1.2 % and windage 1 % at greatest speed by published maps of traction ' +
  'motors (from memory), 0.2 % fixed (common practice, no source); voltage, the voltages between which the inverter works, greatest speed and inverter efficiency from memory; inertia common practice, no source';

/** V: inverters for packs of 320 to 350 V nominal (from memory). */
const WINDOW = { least: 200, greatest: 450 };

interface Ratings {
  readonly kilowatts: number;
  readonly torque: number;
  readonly voltage: number;
  readonly rpm: number;
  readonly inertia: number;
}

function unit({ kilowatts, torque, voltage, rpm, inertia }: Ratings): UnitPart {
  const peakPower = kilowatts * 1000;
  const maxSpeed = rpm * RPM;
  const losses = scaledLosses(peakPower, torque, maxSpeed);
  return {
    kind: 'unit',
    name: `unit_${kilowatts}kw`,
    title: `Single-speed drive unit, ${kilowatts} kW, ${torque} N m`,
    values: {
      peakTorque: torque,
      peakPower,
      referenceVoltage: voltage,
      leastVoltage: WINDOW.least,
      greatestVoltage: WINDOW.greatest,
      maxSpeed,
      inertia,
      ...losses,
      inverterEfficiency: 0.97,
    },
    spreads: {
      peakTorque: between(0.95 * torque, 1.05 * torque),
      peakPower: between(0.95 * peakPower, 1.05 * peakPower),
      referenceVoltage: between(0.93 * voltage, 1.07 * voltage),
      inertia: between(0.5 * inertia, 1.7 * inertia),
      ...lossSpreads(losses),
      inverterEfficiency: between(0.955, 0.985),
    },
    source: SOURCE,
  };
}

export const units: readonly UnitPart[] = [
  unit({ kilowatts: 60, torque: 210, voltage: 320, rpm: 11_000, inertia: 0.025 }),
  unit({ kilowatts: 100, torque: 260, voltage: 330, rpm: 12_500, inertia: 0.035 }),
  unit({ kilowatts: 150, torque: 310, voltage: 350, rpm: 16_000, inertia: 0.045 }),
  unit({ kilowatts: 200, torque: 430, voltage: 350, rpm: 16_000, inertia: 0.06 }),
];
