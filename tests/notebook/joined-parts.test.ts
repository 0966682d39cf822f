/** Parts of one calibration in one car: they keep their covariance, whatever else the car says (JCGM 101:2008, 6.4.8). */
import { describe, expect, it } from 'vitest';
import type { World } from '../../src/notebook/context.ts';
import { carFields } from '../../src/model/spec.ts';
import { calibratedParts } from '../../src/notebook/cells/calibrated-parts.ts';
import { joinedByFit, togetherOfParts } from '../../src/notebook/cells/part-together.ts';
import type { Group } from '../../src/notebook/cells/together.ts';
import { type LocatedMap, readYaml } from '../../src/notebook/document/located.ts';
import { propagated } from '../../src/studies/sampling/joint.ts';

const PLACE = { file: 'a.md', line: 1, column: 1, length: 1, source: '' };
const yaml = (...lines: string[]): LocatedMap => readYaml(lines.join('\n'), { file: 'a.md', line: 1 });
const nothing = { given: () => undefined } as unknown as World;

const measured = calibratedParts(
  yaml('tyres: { size: 175/70 R 13 }', 'drive: { axle: rear, unit: { max_speed: 1200 rad/s } }'),
  [
    'drive:',
    '  unit:',
    '    peak_power: 60000 W',
    '    peak_torque: 160 N m',
    'tyres:',
    '  dry_peak: 0.95',
    'together:',
    '  - inputs: [drive.unit.peak_power, tyres.dry_peak, mass, drive.unit.peak_torque]',
    '    covariance: [4, -3, 9, 1, 1, 100, 2, 0.5, 0, 16]',
  ],
  {},
  PLACE,
  nothing,
);
const world = { given: () => ({ product: { kind: 'result', parts: measured } }) } as unknown as World;
const groupsOf = (...lines: string[]): readonly Group[] =>
  joinedByFit(togetherOfParts(yaml(...lines), carFields, world));
/** Rows up to the diagonal as a whole. */
const square = ({ inputs = [], covariance = [] }: Group): number[][] =>
  inputs.map((_, i) =>
    inputs.map((__, j) => covariance[(Math.max(i, j) * (Math.max(i, j) + 1)) / 2 + Math.min(i, j)] ?? 0),
  );

describe('parts that one fit measured', () => {
  it('hang together in a car that takes both, as in the car that was measured', () => {
    const [group, ...more] = groupsOf('mass: 900 kg', 'tyres: pull', 'drive: { axle: rear, ratio: 7, unit: pull }');
    expect(more).toEqual([]);
    expect(group?.inputs).toEqual(['tyres.dry_peak', 'drive.unit.peak_power', 'drive.unit.peak_torque']);
    expect(group?.covariance).toEqual([9, -3, 4, 0.5, 2, 16]);
    // y = 2 grip + power - torque: 36 + 4 + 16 + 2 (2 (-3) - 2 (0.5) - 2) by hand.
    expect(propagated([2, 1, -1], square(group ?? {}))).toBeCloseTo(Math.sqrt(38), 12);
  });

  it('leave out what the car says anew, and hang together in what is left', () => {
    const [group] = groupsOf('tyres: pull', 'drive: { axle: rear, unit: { from: pull, peak_torque: 200 N m } }');
    expect(group?.inputs).toEqual(['tyres.dry_peak', 'drive.unit.peak_power']);
    expect(group?.covariance).toEqual([9, -3, 4]);
  });

  it('are as sure as by themselves where a car takes one of them', () => {
    expect(groupsOf('tyres: pull')).toEqual([]);
    expect(groupsOf('drive: { axle: rear, unit: pull }').map(({ inputs }) => inputs)).toEqual([
      ['drive.unit.peak_power', 'drive.unit.peak_torque'],
    ]);
  });

  it('count once where a car takes one of them twice', () => {
    const [group, ...more] = groupsOf('front_tyres: pull', 'rear_tyres: pull', 'drive: { axle: rear, unit: pull }');
    expect(more).toEqual([]);
    expect(group?.inputs).toHaveLength(3);
  });
});
