/** The traction battery from what is said about it. */
import { filler } from '../fields/filler.ts';
import type { Filler } from '../fields/filler.ts';
import type { Cell, Pack } from '../car.ts';
import { completePackHeat } from './heat.ts';
import type { Input } from '../fields/input.ts';
import { onceEach } from '../fields/once.ts';
import { misfitsOf } from './voltage-window.ts';
import { cellFields, packFields } from './fields.ts';
import type { CellSpec, PackSpec } from './fields.ts';

/** A cell, and the currents that it bears for ever. */
interface CompletedCell {
  readonly cell: Cell;
  readonly pulses: NonNullable<Pack['pulses']>;
}

const cellOf = onceEach<CompletedCell>();
const NOTHING = {};

/** @throws SpecError */
export function completePack(path: string, spec: PackSpec, inputs: Input[]): Pack {
  const fill = filler(path, packFields, spec, inputs);
  fill.need('cell');
  const said = spec.cell ?? NOTHING;
  const { cell, pulses: ofCell } = cellOf(said, [path], inputs, () => completeCell(`${path}.cell`, said, inputs));
  const series = whole('series', fill);
  const parallel = whole('parallel', fill);
  const minVoltage = fill.derived('minVoltage', () => series * cell.minVoltage);
  if (minVoltage >= series * cell.maxVoltage) throw fill.error('minVoltage', 'is not below the full pack');
  const maxCurrent = fill.derived('maxCurrent', () => parallel * cell.maxCurrent);
  const chargeCold = { none: fill.number('chargeNoneBelow'), full: fill.number('chargeFullAbove') };
  if (chargeCold.none >= chargeCold.full) throw fill.error('chargeNoneBelow', 'is not below charge_full_above');
  const window = { low: fill.number('windowLow'), high: fill.number('windowHigh') };
  if (window.low >= window.high) throw fill.error('windowLow', 'is not below window_high');
  const health = healthOf(spec, fill);
  checkContactors(spec, fill, { series, cell, maxVoltage: series * cell.maxVoltage, window });
  const maxChargeCurrent = fill.derived('maxChargeCurrent', () => parallel * cell.maxChargeCurrent);
  const lost = Math.max(0, 1 - health);
  const growth = lost > 0 ? ({ kind: 'rectangular', low: 1, high: 1 + 4 * lost } as const) : undefined;
  const heat = completePackHeat(fill, cell, series * parallel);
  return {
    heat,
    cell,
    series,
    parallel,
    charge: fill.number('charge'),
    health,
    resistanceGrowth: fill.derived('resistanceGrowth', () => 1 + 2 * lost, growth),
    wiringResistance: fill.derived('wiringResistance', () => 6 / maxCurrent, {
      kind: 'rectangular',
      low: 3 / maxCurrent,
      high: 12 / maxCurrent,
    }),
    maxCurrent,
    minVoltage,
    maxVoltage: series * cell.maxVoltage,
    maxChargeCurrent,
    pulses: pulsesOf(spec, fill, ofCell, { parallel, maxCurrent, maxChargeCurrent }),
    weak: weakOf(fill),
    chargeCold,
    ...heaterOf(spec, fill, chargeCold.none),
    window,
  };
}

/** @param none K below which nothing may be charged. */
function heaterOf(spec: PackSpec, fill: Filler<typeof packFields>, none: number): Pick<Pack, 'heater'> {
  if (spec.heaterPower === undefined) {
    if (spec.heaterUntil !== undefined)
      throw fill.error('heaterUntil', 'stands there without a heater', 'heater_power: beside it, such as 1 kW');
    return {};
  }
  const until = fill.number('heaterUntil');
  if (until <= none)
    throw fill.error('heaterUntil', 'is not above charge_none_below', 'a temperature at which it takes a current');
  return { heater: { power: fill.number('heaterPower'), until } };
}

/** The currents for ever, and how long the others last. */
function pulsesOf(
  spec: PackSpec,
  fill: Filler<typeof packFields>,
  { time, continuous: ofCell, continuousCharge: intoCell }: NonNullable<Pack['pulses']>,
  { parallel, maxCurrent, maxChargeCurrent }: Pick<Pack, 'parallel' | 'maxCurrent' | 'maxChargeCurrent'>,
): NonNullable<Pack['pulses']> {
  const continuous = fill.derived('continuousCurrent', () => Math.min(maxCurrent, parallel * ofCell));
  const most = Math.min(maxChargeCurrent, parallel * intoCell);
  const continuousCharge = fill.derived('continuousChargeCurrent', () => most);
  if (spec.continuousCurrent !== undefined && continuous > maxCurrent) {
    throw fill.error('continuousCurrent', 'is above max_current', 'what the pack gives for ever, not above');
  }
  if (spec.continuousChargeCurrent !== undefined && continuousCharge > maxChargeCurrent) {
    throw fill.error(
      'continuousChargeCurrent',
      'is above max_charge_current',
      'what the pack takes for ever, not above',
    );
  }
  return { time, continuous, continuousCharge };
}

/** What the cold and a low charge leave of the discharge limit. */
function weakOf(fill: Filler<typeof packFields>): NonNullable<Pack['weak']> {
  const cold = { none: fill.number('dischargeNoneBelow'), full: fill.number('dischargeFullAbove') };
  if (cold.none >= cold.full) throw fill.error('dischargeNoneBelow', 'is not below discharge_full_above');
  return { cold, low: { charge: fill.number('lowCharge'), share: fill.number('lowShare') } };
}

/** @throws SpecError where the full pack has more than what its contactors are rated for. */
function checkContactors(spec: PackSpec, fill: Filler<typeof packFields>, pack: Parameters<typeof misfitsOf>[0]): void {
  if (spec.contactorVoltage === undefined) return;
  const [misfit] = misfitsOf(pack, { least: 0, greatest: fill.number('contactorVoltage') });
  if (misfit !== undefined) throw fill.error('contactorVoltage', misfit.words, misfit.cure);
}

/** In a string the weakest module is empty first, and full first: it gives the capacity. */
function healthOf(spec: PackSpec, fill: Filler<typeof packFields>): number {
  const { moduleHealth: modules } = spec;
  if (modules === undefined) return fill.number('health');
  if (spec.health !== undefined) throw fill.error('moduleHealth', 'stands beside health', 'one of the two');
  if (modules.length === 0) throw fill.error('moduleHealth', 'has no module', 'one share for each module');
  const least = Math.min(...modules);
  const { min, max } = packFields.health;
  if (!(least >= min && Math.max(...modules) <= max)) {
    throw fill.error('moduleHealth', `has a module outside ${min} to ${max}`);
  }
  return least;
}

function whole(key: 'series' | 'parallel', fill: Filler<typeof packFields>): number {
  const n = fill.number(key);
  if (!Number.isInteger(n)) throw fill.error(key, `${n} is not a whole number`);
  return n;
}

function completeCell(path: string, spec: CellSpec, inputs: Input[]): CompletedCell {
  const fill = filler(path, cellFields, spec, inputs);
  const ocv = column('ocvCharge', 'ocvVoltage', spec, fill);
  const resistance = column('resistanceCharge', 'resistanceOhm', spec, fill);
  if (ocv.x[0] !== 0 || ocv.x[ocv.x.length - 1] !== 1) throw fill.error('ocvCharge', 'does not run from 0 to 1');
  if (!ocv.y.every((v, i) => i === 0 || v > (ocv.y[i - 1] ?? 0))) {
    throw fill.error('ocvVoltage', 'does not rise with the charge');
  }
  const pairResistance = spec.pairResistance ?? [];
  const pairTime = spec.pairTimeConstant ?? [];
  if (pairResistance.length !== pairTime.length) {
    throw fill.error('pairTimeConstant', `has ${pairTime.length} values, pair_resistance has ${pairResistance.length}`);
  }
  const minVoltage = fill.number('minVoltage');
  const maxVoltage = fill.number('maxVoltage');
  if (minVoltage >= maxVoltage) throw fill.error('minVoltage', 'is not below max_voltage');
  const capacity = fill.number('capacity');
  const factor = fill.number('resistanceFactor');
  const maxCurrent = fill.number('maxCurrent');
  const most = (1.5 * capacity) / 3600;
  const maxChargeCurrent = fill.derived('maxChargeCurrent', () => Math.min(0.5 * maxCurrent, most), {
    kind: 'rectangular',
    low: 0.5 * Math.min(0.5 * maxCurrent, most),
    high: 1.5 * Math.min(0.5 * maxCurrent, most),
  });
  return {
    pulses: {
      time: fill.number('pulseTime'),
      continuous: fill.derived('continuousCurrent', () => 0.5 * maxCurrent, halves(maxCurrent)),
      continuousCharge: fill.derived('continuousChargeCurrent', () => 0.5 * maxChargeCurrent, halves(maxChargeCurrent)),
    },
    cell: {
      capacity,
      ocv: { charge: ocv.x, voltage: ocv.y },
      resistance: { charge: resistance.x, ohm: resistance.y.map(ohm => factor * ohm) },
      pairs: pairResistance.map((ohm, i) => ({ resistance: factor * ohm, timeConstant: pairTime[i] ?? 1 })),
      maxCurrent,
      maxChargeCurrent,
      coulombicEfficiency: fill.number('coulombicEfficiency'),
      minVoltage,
      maxVoltage,
      mass: fill.number('mass'),
    },
  };
}

/** From a third to two thirds. */
function halves(value: number): { readonly kind: 'rectangular'; readonly low: number; readonly high: number } {
  return { kind: 'rectangular', low: value / 3, high: (2 * value) / 3 };
}

function column(
  xKey: 'ocvCharge' | 'resistanceCharge',
  yKey: 'ocvVoltage' | 'resistanceOhm',
  spec: CellSpec,
  fill: Filler<typeof cellFields>,
): { readonly x: readonly number[]; readonly y: readonly number[] } {
  const x = spec[xKey];
  const y = spec[yKey];
  if (x === undefined || y === undefined) throw fill.error(x === undefined ? xKey : yKey, 'is missing', '', 'missing');
  if (x.length !== y.length || x.length < 2) {
    throw fill.error(yKey, `has ${y.length} values for ${x.length} states of charge`, 'as many, 2 or more');
  }
  if (!x.every((s, i) => i === 0 || s > (x[i - 1] ?? 0))) throw fill.error(xKey, 'does not rise step by step');
  return { x, y };
}
