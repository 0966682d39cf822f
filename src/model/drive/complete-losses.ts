/** The losses of a drive unit: from a map, from a few stated efficiencies, or from constants. */
import { item, nth } from '../../columns.ts';
import type { RatedUnit } from './field-weakening.ts';
import { filler, notebookKey } from '../fields/filler.ts';
import { lossMap } from './efficiency-map.ts';
import { mapCover } from './map-cover.ts';
import type { LossMap, LossScope, LossTable } from './efficiency-map.ts';
import { type EfficiencyPoint, fitLosses, type LossFit, type Losses } from './fit-losses.ts';
import type { Input } from '../fields/input.ts';
import type { mapFields } from './map-fields.ts';
import type { SpecOf } from '../fields/table.ts';
import { unitFields, type UnitSpec } from './fields.ts';

/** What a specification says about a map. */
export type MapSpec = SpecOf<typeof mapFields>;

export interface UnitRatings extends RatedUnit {
  /** V that the losses are taken at. */
  readonly voltage: number;
}

export interface UnitLosses {
  /** `constants`: as they are given or assumed; nothing below says anything then. */
  readonly from: 'constants' | 'points' | 'map';
  readonly map: LossMap | null;
  readonly fit: LossFit | null;
  /** Whether the inverter is among the losses: its own efficiency is 1 then. */
  readonly withInverter: boolean;
  /** Sentences that the reader must see. */
  readonly notes: readonly string[];
}

const CONSTANTS = ['copperLoss', 'ironLoss', 'windageLoss', 'fixedLoss'] as const;

/**
 * @param table what the file of `spec.map` says; null where the specification names none.
 * @param shape constants that too few efficiency points scale, as `scaledLosses` gives them.
 * @throws SpecError when the map does not cover the unit, or map and points are both given.
 */
export function completeLosses(
  path: string,
  spec: MapSpec & UnitSpec,
  table: LossTable | null,
  ratings: UnitRatings,
  shape: Losses,
  inputs: Input[],
): UnitLosses {
  const fill = filler(path, unitFields, spec, inputs);
  const points = spec.efficiencyPoints;
  if (table === null && points === undefined) {
    return { from: 'constants', map: null, fit: null, withInverter: false, notes: [] };
  }
  if (table !== null && points !== undefined) {
    throw fill.error('efficiencyPoints', 'stand beside a map', 'one of the two');
  }
  const scope: LossScope = fill.choice('mapIncludes') === 'motor' ? 'motor' : 'motor and inverter';
  const withInverter = scope === 'motor and inverter';
  const notes = setAside(spec, withInverter);
  if (table === null) {
    const fit = fitLosses(completePoints(points ?? [], fill), shape);
    noteFit(path, fit, inputs);
    return { from: 'points', map: null, fit, withInverter, notes: [...fit.warnings, ...notes] };
  }
  const made = lossMap(table, scope, ratings.voltage);
  const cover = mapCover(made.map, ratings);
  if (cover.missing !== '') throw fill.error('map', cover.missing, 'a map that covers what the unit can do');
  return { from: 'map', map: made.map, fit: null, withInverter, notes: [...made.notes, ...cover.notes, ...notes] };
}

/** Says what a map or points take the place of: a unit that ships with axlewatt has it all. */
function setAside(spec: UnitSpec, withInverter: boolean): string[] {
  const given = [
    ...CONSTANTS.filter(key => spec[key] !== undefined),
    ...(withInverter && spec.inverterEfficiency !== undefined ? ['inverterEfficiency'] : []),
  ];
  if (given.length === 0) return [];
  return [`what is measured takes the place of ${given.map(notebookKey).join(', ')}`];
}

function completePoints(
  points: readonly Partial<EfficiencyPoint>[],
  fill: ReturnType<typeof filler<typeof unitFields>>,
): EfficiencyPoint[] {
  if (points.length === 0) throw fill.error('efficiencyPoints', 'has no point', 'one or more');
  return points.map(({ speed, torque, efficiency }) => {
    if (speed === undefined || torque === undefined || efficiency === undefined) {
      throw fill.error('efficiencyPoints', 'has a point that lacks a number', 'a speed, a torque and an efficiency');
    }
    return { speed, torque, efficiency };
  });
}

const UNITS = ['W/(N m)^2', 'W s/rad', 'W s^3/rad^3', 'W'] as const;

function noteFit(path: string, { losses, residuals, rms, kind }: LossFit, inputs: Input[]): void {
  const percent = (share: number): string => `${(100 * share).toFixed(2)} percentage points`;
  const worst = residuals.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  const how = kind === 'fitted' ? 'least squares, none negative,' : 'usual proportions scaled by least squares';
  const formula = `${how} to ${residuals.length} efficiency points, missed by ${percent(rms)} rms, ${percent(worst)} at most`;
  const values = [losses.copper, losses.iron, losses.windage, losses.fixed];
  for (const [k, key] of CONSTANTS.entries()) {
    const unit = item(UNITS, k);
    const origin = { kind: 'computed', formula } as const;
    inputs.push({ path: `${path}.${notebookKey(key)}`, value: nth(values, k), unit, display: unit, origin });
  }
}
