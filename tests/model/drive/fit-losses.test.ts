import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type EfficiencyPoint, efficiencyOf, fitLosses, type Losses } from '../../../src/model/drive/fit-losses.ts';

/** Larminie & Lowry, Electric Vehicle Technology Explained, constants of eq. 7.23. */
const TEXTBOOK: Losses = { copper: 0.3, iron: 0.01, windage: 5e-6, fixed: 600 };

/** Worked out from those constants with 12 digits. */
const POINTS: readonly EfficiencyPoint[] = [
  { torque: 40, speed: 300, efficiency: 0.907852927826 },
  { torque: 100, speed: 400, efficiency: 0.910663873964 },
  { torque: 140, speed: 700, efficiency: 0.922769816011 },
];

const KEYS = ['copper', 'iron', 'windage', 'fixed'] as const;

const point = (torque: number, speed: number, losses = TEXTBOOK): EfficiencyPoint => ({
  torque,
  speed,
  efficiency: efficiencyOf(losses, torque, speed),
});

describe('loss constants from stated efficiencies', () => {
  it("are the textbook's from its points and three more", () => {
    const fit = fitLosses([...POINTS, point(20, 1200), point(60, 900), point(15, 80)], {
      copper: 9,
      iron: 9,
      windage: 9,
      fixed: 9,
    });
    expect(fit.kind).toBe('fitted');
    // The printed digits bound the answer: an iron loss of 0.01 W s/rad is a few watts out of thousands.
    for (const key of KEYS) expect(Math.abs(fit.losses[key] / TEXTBOOK[key] - 1), key).toBeLessThan(1e-6);
    expect(fit.rms).toBeLessThan(1e-11);
    expect(fit.warnings).toEqual([]);
  });

  it("are the textbook's from its three points alone where its proportions are right", () => {
    const half = { copper: 0.15, iron: 0.005, windage: 2.5e-6, fixed: 300 };
    const fit = fitLosses(POINTS, half);
    expect(fit.kind).toBe('scaled');
    for (const key of KEYS) expect(Math.abs(fit.losses[key] / TEXTBOOK[key] - 1), key).toBeLessThan(1e-10);
    expect(fit.warnings).toEqual([expect.stringMatching(/^3 efficiency points are too few/)]);
  });

  it('scale the proportions where the points cannot tell the parts apart', () => {
    const one = fitLosses(
      [40, 60, 80, 100, 120].map(T => point(T, 500)),
      TEXTBOOK,
    );
    expect(one.kind).toBe('scaled');
    expect(one.warnings).toEqual([expect.stringMatching(/^these efficiency points are too few/)]);
    for (const key of KEYS) expect(one.losses[key]).toBeCloseTo(TEXTBOOK[key], 9);
  });

  it('give each point its residual, and warn of a fit that misses one', () => {
    const points = [
      point(40, 300),
      point(100, 400),
      point(140, 700),
      point(60, 900),
      { ...point(30, 500), efficiency: 0.7 },
    ];
    const { losses, residuals, rms, warnings } = fitLosses(points, TEXTBOOK);
    const misses = points.map(each => efficiencyOf(losses, each.torque, each.speed) - each.efficiency);
    expect(residuals).toEqual(misses);
    expect(rms).toBeCloseTo(Math.sqrt(misses.reduce((sum, each) => sum + each * each, 0) / 5), 14);
    expect(warnings).toEqual([expect.stringMatching(/misses a stated efficiency by \d+\.\d percentage points/)]);
  });

  it.each([
    [[], /no efficiency/],
    [[{ torque: 10, speed: 100, efficiency: 1.01 }], /point 1/],
    [[POINTS[0]!, { torque: 10, speed: 100, efficiency: 0 }], /point 2/],
    [[{ torque: -10, speed: 100, efficiency: 0.9 }], /point 1/],
    [[{ torque: 10, speed: Number.NaN, efficiency: 0.9 }], /point 1/],
  ])('are refused for %j', (points, message) => {
    expect(() => fitLosses(points, TEXTBOOK)).toThrow(RangeError);
    expect(() => fitLosses(points, TEXTBOOK)).toThrow(message);
  });
});

interface PeerCase {
  readonly points: readonly EfficiencyPoint[];
  readonly constants: readonly number[];
  readonly miss: number;
}

const peer = JSON.parse(readFileSync(new URL('../../published/peer/fit-losses.json', import.meta.url), 'utf8')) as {
  cases: readonly PeerCase[];
};

describe('the non-negative least squares', () => {
  const weighted = ({ torque, speed, efficiency }: EfficiencyPoint) => {
    const weight = efficiency ** 2 / (torque * speed);
    const row = [torque ** 2, speed, speed ** 3, 1].map(value => value * weight);
    return { row, b: torque * speed * (1 / efficiency - 1) * weight };
  };

  it.each(peer.cases)("agree with SciPy's nnls", ({ points, constants }) => {
    const { losses } = fitLosses(points, TEXTBOOK);
    KEYS.forEach((key, k) => {
      const expected = constants[k]!;
      expect(Math.abs(losses[key] - expected), key).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
    });
  });

  it.each(peer.cases)('meet the conditions of Karush, Kuhn and Tucker', ({ points }) => {
    const { losses } = fitLosses(points, TEXTBOOK);
    const x = KEYS.map(key => losses[key]);
    const rows = points.map(weighted);
    const misses = rows.map(({ row, b }) => b - row.reduce((sum, value, k) => sum + value * x[k]!, 0));
    const size = Math.hypot(...rows.map(({ b }) => b));
    for (const [k, value] of x.entries()) {
      const column = rows.map(({ row }) => row[k]!);
      const gradient = column.reduce((sum, each, i) => sum + each * misses[i]!, 0) / (Math.hypot(...column) * size);
      expect(value).toBeGreaterThanOrEqual(0);
      if (value > 0) expect(Math.abs(gradient)).toBeLessThan(1e-10);
      else expect(gradient).toBeLessThan(1e-10);
    }
  });

  it('are checked with and without constants at 0', () => {
    const zeros = peer.cases.map(({ constants }) => constants.filter(value => value === 0).length);
    expect(zeros.some(count => count > 0)).toBe(true);
    expect(zeros.some(count => count < 3)).toBe(true);
  });
});
