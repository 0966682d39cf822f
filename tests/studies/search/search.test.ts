import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Evaluate } from '../../../src/studies/question/evaluate.ts';
import type { SeekAxis, SeekConstraint, SeekProblem } from '../../../src/studies/search/problem.ts';
import { seek, seekSteps } from '../../../src/studies/search/search.ts';
import type { SeekFound, SeekNone } from '../../../src/studies/search/search.ts';

const between = (low: number, high: number): SeekAxis => ({ kind: 'continuous', low, high });
const whole = (low: number, high: number): SeekAxis => ({ kind: 'integer', low, high });
const atLeast = (output: number, bound: number): SeekConstraint => ({ output, sense: 'at_least', bound });
const atMost = (output: number, bound: number): SeekConstraint => ({ output, sense: 'at_most', bound });

/** A model from functions, one per output. */
function model(...functions: ((a: number, b: number) => number)[]): Evaluate {
  return (x, out) => {
    functions.forEach((f, k) => {
      out[k] = f(x[0]!, x[1] ?? Number.NaN);
    });
  };
}

function found(evaluate: Evaluate, problem: SeekProblem): SeekFound & { evaluations: number } {
  const result = seek(evaluate, problem);
  if (result.kind === 'none') throw new Error(`nothing found: ${JSON.stringify(result)}`);
  return result;
}

function none(evaluate: Evaluate, problem: SeekProblem): SeekNone {
  const result = seek(evaluate, problem);
  if (result.kind === 'found') throw new Error(`found ${result.x.join(' ')}`);
  return result;
}

describe('the smallest and largest of a parameter', () => {
  const smallest = { kind: 'smallest', axis: 0 } as const;
  const largest = { kind: 'largest', axis: 0 } as const;

  it('is the root for a rising margin, on the side that will do', () => {
    const square = model(x => x * x);
    const problem: SeekProblem = { axes: [between(0, 10)], outputs: 1, constraints: [atLeast(0, 2)], goal: smallest };
    const answer = found(square, problem);
    expect(answer.x[0]! - Math.SQRT2).toBeGreaterThanOrEqual(0);
    expect(answer.x[0]! - Math.SQRT2).toBeLessThan(1e-5);
    expect(answer.atEnd).toEqual([]);
    expect(answer.stretches).toHaveLength(1);
    // d sqrt(b) / db = 1 / (2 sqrt(b)), and dy/dx = 2 x.
    expect(answer.moves[0]!.slope).toBeCloseTo(1 / (2 * Math.SQRT2), 3);
    expect(answer.slopes[0]![0]).toBeCloseTo(2 * Math.SQRT2, 4);
    const top = found(square, { ...problem, constraints: [atMost(0, 2)], goal: largest });
    expect(Math.SQRT2 - top.x[0]!).toBeGreaterThanOrEqual(0);
    expect(Math.SQRT2 - top.x[0]!).toBeLessThan(1e-5);
    expect(top.stretches).toHaveLength(1);
    expect(top.stretches![0]!.low).toBe(0);
  });

  it('does not take the model for monotone: every stretch is reported', () => {
    const wave = model(Math.sin);
    const problem: SeekProblem = { axes: [between(0, 19)], outputs: 1, constraints: [atLeast(0, 0.5)], goal: smallest };
    const answer = found(wave, problem);
    expect(answer.x[0]).toBeCloseTo(Math.PI / 6, 4);
    const edges = [1, 5, 13, 17, 25, 29].map(k => (k * Math.PI) / 6);
    expect(answer.stretches).toHaveLength(3);
    answer.stretches!.forEach((stretch, k) => {
      expect(stretch.low).toBeCloseTo(edges[2 * k]!, 4);
      expect(stretch.high).toBeCloseTo(edges[2 * k + 1]!, 4);
    });
    const top = found(wave, { ...problem, goal: largest });
    expect(top.x[0]).toBeCloseTo((29 * Math.PI) / 6, 4);
    expect(top.stretches!.map(({ low }) => low)).toEqual(
      top.stretches!.map(({ low }) => low).toSorted((a, b) => a - b),
    );
  });

  it('finds a stretch that lies between the points of the scan', () => {
    const peak = model(x => 1 - ((x - 3.3) / 0.01) ** 2);
    const answer = found(peak, { axes: [between(0, 10)], outputs: 1, constraints: [atLeast(0, 0)], goal: smallest });
    expect(answer.x[0]).toBeCloseTo(3.29, 4);
  });

  it('counts a point without an answer as one that will not do', () => {
    const partly = model(x => (x < 4 ? Number.NaN : 1));
    const answer = found(partly, { axes: [between(0, 10)], outputs: 1, constraints: [atLeast(0, 0)], goal: smallest });
    expect(answer.x[0]).toBeCloseTo(4, 4);
    expect(answer.x[0]).toBeGreaterThanOrEqual(4);
  });

  it('says when the answer is the end of the range', () => {
    const answer = found(
      model(x => x),
      { axes: [between(1, 9)], outputs: 1, constraints: [atLeast(0, 0)], goal: smallest },
    );
    expect(answer.x).toEqual([1]);
    expect(answer.atEnd).toEqual([0]);
    expect(answer.moves[0]!.slope).toBe(0);
  });

  it('is the power for a quarter mile in a time, in closed form', () => {
    // Constant power: v = sqrt(2 P t / m), x = 2/3 sqrt(2 P / m) t^(3/2), so P = 9 m x^2 / (8 t^3).
    const mass = 1200;
    const distance = 402.336;
    const time = model(power => Math.cbrt((9 * mass * distance ** 2) / (8 * power)));
    const problem: SeekProblem = {
      axes: [between(10e3, 500e3)],
      outputs: 1,
      constraints: [atMost(0, 15)],
      goal: smallest,
    };
    const answer = found(time, problem);
    const exact = (9 * mass * distance ** 2) / (8 * 15 ** 3);
    expect(answer.x[0]! / exact).toBeCloseTo(1, 5);
    // dP/dt = -3 P / t.
    expect(answer.moves[0]!.slope! / ((-3 * exact) / 15)).toBeCloseTo(1, 2);
    expect(answer.moves[0]!.tighter!.goal).toBeGreaterThan(answer.x[0]!);
    expect(answer.evaluations).toBeLessThan(80);
  });

  it('says when a little more would be too much, and takes slopes over whole numbers by one', () => {
    const cells = model(n => 10 * n - (n > 8 ? 100 : 0));
    const answer = found(cells, { axes: [whole(1, 12)], outputs: 1, constraints: [atLeast(0, 80)], goal: smallest });
    expect(answer).toMatchObject({ x: [8], stretches: [{ low: 8, high: 8 }] });
    expect(answer.moves[0]).toMatchObject({ by: 0.8, looser: { x: [8], goal: 8 }, tighter: null, slope: null });
    // From 70 at 7 to -10 at 9.
    expect(answer.slopes).toEqual([[-40]]);
  });

  it('names the constraint that holds the answer back', () => {
    const two = model(
      x => x,
      x => x,
    );
    const constraints = [atLeast(0, 5), atLeast(1, 3)];
    const answer = found(two, { axes: [between(0, 10)], outputs: 2, constraints, goal: smallest });
    expect(answer.moves.map(move => move.slope)).toEqual([expect.closeTo(1, 3), 0]);
  });

  it('is exact for whole numbers, few and many', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 0, max: 100_000 }), (count, root) => {
        const step = model(n => (n >= root ? 1 : -1));
        const problem = { axes: [whole(0, count)], outputs: 1, constraints: [atLeast(0, 0)], sensitivity: false };
        const up = seek(step, { ...problem, goal: smallest });
        if (root > count) expect(up.kind).toBe('none');
        else expect(up.x).toEqual([root]);
        const down = seek(step, { ...problem, constraints: [atMost(0, 0)], goal: largest });
        if (root === 0) expect(down.kind).toBe('none');
        else expect(down.x).toEqual([Math.min(count, root - 1)]);
      }),
    );
  });

  it('is what trying every number gives, whatever the model', () => {
    const values = fc.array(fc.oneof(fc.double({ min: -1, max: 1, noNaN: true }), fc.constant(Number.NaN)), {
      minLength: 1,
      maxLength: 129,
    });
    fc.assert(
      fc.property(values, table => {
        const lookup = model(n => table[n]!);
        const problem = { axes: [whole(0, table.length - 1)], outputs: 1, constraints: [atLeast(0, 0.5)] };
        const first = table.findIndex(value => value >= 0.5);
        const result = seek(lookup, { ...problem, goal: smallest });
        expect(result.kind).toBe(first === -1 ? 'none' : 'found');
        if (first !== -1) expect(result.x).toEqual([first]);
        const answered = table.filter(value => value >= 0.5);
        const best = seek(lookup, { ...problem, goal: { kind: 'lowest', output: 0 } });
        if (answered.length > 0) expect(best.outputs).toEqual([Math.min(...answered)]);
      }),
    );
  });

  it('of two parameters leaves the other where most is in hand', () => {
    const circle = model((a, b) => (a - 3) ** 2 + (b - 2) ** 2);
    const axes = [between(0, 10), between(-5, 5)];
    const left = found(circle, { axes, outputs: 1, constraints: [atMost(0, 1)], goal: smallest });
    expect(left.x[0]).toBeCloseTo(2, 4);
    expect(left.x[1]).toBeCloseTo(2, 1);
    // The edge lies at 3 - sqrt(b), so it moves by -1/2 per unit of the bound.
    expect(left.moves[0]!.slope).toBeCloseTo(-0.5, 2);
    const low = found(circle, { axes, outputs: 1, constraints: [atMost(0, 1)], goal: { kind: 'largest', axis: 1 } });
    expect(low.x[1]).toBeCloseTo(3, 4);
  });
});

describe('the best of an output', () => {
  const lowest = { kind: 'lowest', output: 0 } as const;

  it('is the lowest point, inside or at an end', () => {
    const curve = model(x => 4 / x + x);
    const inside = found(curve, { axes: [between(0.5, 9)], outputs: 1, constraints: [], goal: lowest });
    expect(inside.x[0]).toBeCloseTo(2, 4);
    expect(inside.outputs[0]).toBeCloseTo(4, 9);
    const end = found(curve, { axes: [between(3, 9)], outputs: 1, constraints: [], goal: lowest });
    expect(end.x[0]).toBe(3);
    expect(end.atEnd).toEqual([0]);
    expect(end.evaluations).toBeLessThan(50);
  });

  it('is the highest as well, and the edge of what will do where that is better', () => {
    const curve = model(
      x => x * (4 - x),
      x => x,
    );
    const problem: SeekProblem = {
      axes: [between(0, 4)],
      outputs: 2,
      constraints: [],
      goal: { kind: 'highest', output: 0 },
    };
    expect(found(curve, problem).outputs[0]).toBeCloseTo(4, 9);
    const edge = found(curve, { ...problem, constraints: [atMost(1, 1.3)] });
    expect(edge.x[0]).toBeCloseTo(1.3, 4);
    expect(edge.x[0]).toBeLessThanOrEqual(1.3);
    // d/dx of x (4 - x) at 1.3.
    expect(edge.moves[0]!.slope).toBeCloseTo(4 - 2.6, 2);
  });

  it('is the deepest of many dips', () => {
    const dips = model(x => Math.cos(3 * x) + 0.1 * (x - 5.2) ** 2);
    const answer = found(dips, { axes: [between(0, 12)], outputs: 1, constraints: [], goal: lowest });
    // The whole range in steps of a hundred thousandth: the lowest of all the places must not lie below the answer.
    let brute = Number.POSITIVE_INFINITY;
    for (let x = 0; x <= 12; x += 1e-5) brute = Math.min(brute, Math.cos(3 * x) + 0.1 * (x - 5.2) ** 2);
    expect(answer.outputs[0]).toBeLessThan(brute + 1e-9);
  });

  /** Problems of W. Hock, K. Schittkowski, Test Examples for Nonlinear Programming Codes (1981), by number (from memory). */
  const problems: {
    name: string;
    f: Evaluate;
    axes: SeekAxis[];
    constraints: SeekConstraint[];
    best: number;
    x: number[];
  }[] = [
    {
      name: '1 (Rosenbrock)',
      f: model((a, b) => 100 * (b - a * a) ** 2 + (1 - a) ** 2),
      axes: [between(-2, 2), between(-1.5, 2)],
      constraints: [],
      best: 0,
      x: [1, 1],
    },
    {
      name: '10',
      f: model(
        (a, b) => a - b,
        (a, b) => -3 * a * a + 2 * a * b - b * b + 1,
      ),
      axes: [between(-10, 10), between(-10, 10)],
      constraints: [atLeast(1, 0)],
      best: -1,
      x: [0, 1],
    },
    {
      name: '12',
      f: model(
        (a, b) => a * a * 0.5 + b * b - a * b - 7 * a - 7 * b,
        (a, b) => 25 - 4 * a * a - b * b,
      ),
      axes: [between(-5, 5), between(-5, 5)],
      constraints: [atLeast(1, 0)],
      best: -30,
      x: [2, 3],
    },
    {
      name: '19',
      f: model(
        (a, b) => (a - 10) ** 3 + (b - 20) ** 3,
        (a, b) => (a - 5) ** 2 + (b - 5) ** 2 - 100,
        (a, b) => 82.81 - (b - 5) ** 2 - (a - 6) ** 2,
      ),
      axes: [between(13, 100), between(0, 100)],
      constraints: [atLeast(1, 0), atLeast(2, 0)],
      best: -6961.81381,
      x: [14.095, 0.84296],
    },
    {
      name: '21',
      f: model(
        (a, b) => 0.01 * a * a + b * b - 100,
        (a, b) => 10 * a - b - 10,
      ),
      axes: [between(2, 50), between(-50, 50)],
      constraints: [atLeast(1, 0)],
      best: -99.96,
      x: [2, 0],
    },
    {
      name: '22',
      f: model(
        (a, b) => (a - 2) ** 2 + (b - 1) ** 2,
        (a, b) => -a - b + 2,
        (a, b) => -a * a + b,
      ),
      axes: [between(-5, 5), between(-5, 5)],
      constraints: [atLeast(1, 0), atLeast(2, 0)],
      best: 1,
      x: [1, 1],
    },
  ];

  it.each(problems.map(p => [p.name, p] as const))(
    'is that of Hock and Schittkowski %s',
    (_, { f, axes, constraints, best, x }) => {
      const outputs = Math.max(0, ...constraints.map(({ output }) => output)) + 1;
      const answer = found(f, { axes, outputs, constraints, goal: lowest, sensitivity: false });
      expect(Math.abs(answer.outputs[0]! - best)).toBeLessThan(1e-4 * Math.max(1, Math.abs(best)));
      answer.x.forEach((value, k) => expect(Math.abs(value - x[k]!)).toBeLessThan(0.01));
    },
  );

  it('tries all named parts, and says how each would do', () => {
    const parts = [
      { cost: 9, range: 200 },
      { cost: 5, range: 170 },
      { cost: 3, range: 150 },
    ];
    const shop = model(
      part => parts[part]!.cost,
      part => parts[part]!.range,
    );
    const axes = [{ kind: 'choice', count: 3 } as const];
    const problem: SeekProblem = { axes, outputs: 2, constraints: [atLeast(1, 160)], goal: lowest };
    const answer = found(shop, problem);
    expect(answer).toMatchObject({ x: [1], outputs: [5, 170], stretches: null, atEnd: [], evaluations: 3 });
    expect(answer.choices).toEqual([{ x: [0], outputs: [9, 200] }, { x: [1], outputs: [5, 170] }, null]);
    expect(answer.slopes).toEqual([[null], [null]]);
    // 1 % of 160 changes nothing; that of 170 would.
    expect(answer.moves[0]).toMatchObject({ by: 1.6, slope: null, looser: { x: [1] }, tighter: { x: [1] } });
    const firm = found(shop, { ...problem, constraints: [atLeast(1, 170)] });
    expect(firm.moves[0]).toMatchObject({ looser: { goal: 5 }, tighter: { x: [0], goal: 9 } });
  });

  it('joins named parts with a continuous parameter', () => {
    // (x - c)^2 + d for each part: the second has its lowest point, 1, at 7.
    const shop = model(
      (part, x) => (x - [2, 7, 4][part]!) ** 2 + [3, 1, 2][part]!,
      (_, x) => x,
    );
    const axes: SeekAxis[] = [{ kind: 'choice', count: 3 }, between(0, 10)];
    const free = found(shop, { axes, outputs: 2, constraints: [], goal: lowest });
    expect(free.x[0]).toBe(1);
    expect(free.x[1]).toBeCloseTo(7, 3);
    const held = found(shop, { axes, outputs: 2, constraints: [atMost(1, 5)], goal: lowest });
    expect(held.x[0]).toBe(2);
    expect(held.x[1]).toBeCloseTo(4, 3);
    const smallest = found(shop, {
      axes,
      outputs: 2,
      constraints: [atMost(0, 5)],
      goal: { kind: 'smallest', axis: 1 },
    });
    // Part 0: 2 - sqrt(2).
    expect(smallest.x[0]).toBe(0);
    expect(smallest.x[1]).toBeCloseTo(2 - Math.SQRT2, 4);
    expect(smallest.choices.map(choice => choice!.x[1])).toEqual([
      expect.closeTo(2 - Math.SQRT2, 4),
      expect.closeTo(5, 4),
      expect.closeTo(4 - Math.sqrt(3), 4),
    ]);
  });

  it('joins whole numbers with a continuous parameter', () => {
    const mixed = model((n, x) => (n - 3.4) ** 2 + (x - n / 2) ** 2);
    const answer = found(mixed, { axes: [whole(0, 9), between(0, 10)], outputs: 1, constraints: [], goal: lowest });
    expect(answer.x[0]).toBe(3);
    expect(answer.x[1]).toBeCloseTo(1.5, 4);
    // Smallest n with some x where n + sin x >= 3.5: 3.
    const wave = model((n, x) => n + Math.sin(x));
    const smallest = found(wave, {
      axes: [whole(0, 9), between(0, 10)],
      outputs: 1,
      constraints: [atLeast(0, 3.5)],
      goal: { kind: 'smallest', axis: 0 },
    });
    expect(smallest.x[0]).toBe(3);
    expect(Math.sin(smallest.x[1]!)).toBeCloseTo(1, 5);
  });

  it('finds the lowest of many whole numbers where there is one dip', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50_000 }), at => {
        const dip = model(n => (n - at) ** 2);
        const problem = { axes: [whole(0, 50_000)], outputs: 1, constraints: [], goal: lowest };
        expect(found(dip, problem).x).toEqual([at]);
      }),
    );
  });
});

describe('when nothing will do', () => {
  it('gives the closest point, what fails there, and by how much', () => {
    const hill = model(
      x => 10 - (x - 3) ** 2,
      x => x,
    );
    const problem: SeekProblem = {
      axes: [between(0, 10)],
      outputs: 2,
      constraints: [atLeast(0, 12), atLeast(1, 1)],
      goal: { kind: 'smallest', axis: 0 },
    };
    const answer = none(hill, problem);
    expect(answer.x[0]).toBeCloseTo(3, 3);
    expect(answer.fails).toEqual([{ constraint: 0, by: expect.closeTo(2, 6) }]);
  });

  it('weighs two constraints that exclude each other by their scales', () => {
    // 10 % short of each bound at x = 5.4: x / 6 = 0.9 and 2 - x / 4.9 ... worked out: (6 - x) / 6 = (x - 4) / 4 at 4.8.
    const line = model(x => x);
    const constraints = [atLeast(0, 6), atMost(0, 4)];
    const answer = none(line, { axes: [between(0, 10)], outputs: 1, constraints, goal: { kind: 'largest', axis: 0 } });
    expect(answer.x[0]).toBeCloseTo(4.8, 3);
    expect(answer.fails.map(({ by }) => by)).toEqual([expect.closeTo(1.2, 3), expect.closeTo(0.8, 3)]);
  });

  it('says when there is no answer anywhere', () => {
    const silent: Evaluate = () => undefined;
    const answer = none(silent, {
      axes: [whole(1, 9)],
      outputs: 1,
      constraints: [atLeast(0, 1)],
      goal: { kind: 'smallest', axis: 0 },
    });
    expect(answer.outputs).toEqual([null]);
    expect(answer.fails).toEqual([{ constraint: 0, by: null }]);
  });

  it('holds for two parameters', () => {
    const bowl = model((a, b) => (a - 3) ** 2 + (b - 2) ** 2 + 1);
    const problem = { axes: [between(0, 10), between(0, 10)], outputs: 1, constraints: [atMost(0, 0.5)] };
    for (const goal of [
      { kind: 'smallest', axis: 0 },
      { kind: 'lowest', output: 0 },
    ] as const) {
      const answer = none(bowl, { ...problem, goal });
      expect(answer.x[0]).toBeCloseTo(3, 2);
      expect(answer.x[1]).toBeCloseTo(2, 2);
      expect(answer.fails[0]!.by).toBeCloseTo(0.5, 4);
    }
  });
});

describe('the search without the work', () => {
  const problem: SeekProblem = {
    axes: [between(0, 4)],
    outputs: 1,
    constraints: [atLeast(0, 2)],
    goal: { kind: 'smallest', axis: 0 },
  };

  it('asks for no point twice, and for the scan at once', () => {
    const steps = seekSteps(problem);
    const seen = new Set<string>();
    let step = steps.next();
    expect(step.value).toHaveLength(33);
    while (step.done !== true) {
      for (const x of step.value) {
        expect(seen.has(x.join())).toBe(false);
        seen.add(x.join());
      }
      step = steps.next(step.value.map(([x]) => [x! ** 2]));
    }
    expect(step.value).toEqual(
      seek(
        model(x => x * x),
        problem,
      ),
    );
    expect(step.value.evaluations).toBe(seen.size);
  });

  it.each([
    [{ axes: [] }, /one or two parameters/],
    [{ axes: [between(1, 1)] }, /can not lie between/],
    [{ axes: [whole(0.5, 2)] }, /whole number/],
    [{ axes: [{ kind: 'choice', count: 0 }] }, /one part/],
    [{ axes: [{ kind: 'choice', count: 2 }] }, /no order/],
    [{ axes: [{ ...between(0, 1), resolution: 0 }] }, /resolution/],
    [{ constraints: [atLeast(1, 2)] }, /no constraint/],
    [{ constraints: [{ ...atLeast(0, 2), scale: 0 }] }, /no constraint/],
    [{ goal: { kind: 'lowest', output: 3 } }, /no output 3/],
    [{ goal: { kind: 'smallest', axis: 1 } }, /no parameter 1/],
    [{ scan: 1 }, /two intervals/],
  ] as const)('refuses %o', (changes, message) => {
    expect(() =>
      seek(
        model(x => x),
        { ...problem, ...(changes as Partial<SeekProblem>) },
      ),
    ).toThrow(message);
  });
});
