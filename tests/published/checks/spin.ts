import type { Car } from '../../../src/model/car.ts';
import { DISTANCE, QUADRATURES, SPEED } from '../../../src/model/forward/state.ts';
import type { Mark } from '../../../src/runs/launch/marks.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import type { LaunchRun } from '../../../src/runs/launch/run.ts';
import { withTraction } from '../../../src/runs/variant.ts';
import type { SolveEvent } from '../../../src/solvers/system.ts';
import type { Check, Topic } from '../check.ts';
import { roadWithDensity } from '../ideal.ts';
import cases from '../peer/cars.json' with { type: 'json' };
import peer from '../peer/spin.json' with { type: 'json' };

const MARKS = ['60_ft', '50_km_h', '100_km_h', 'quarter_mile'] as const satisfies readonly Mark[];

const SOURCE = `the same equations written apart in Python, ${peer.method}, of SciPy ${peer.scipy} (its LSODA within ${peer.lsoda}), script and results in tests/published/peer`;

let known: LaunchRun | undefined;

function run(): LaunchRun {
  const { car, density, surroundings } = cases.front;
  known ??= launchOnce(withTraction(car as Car, 'spin'), {
    surroundings: roadWithDensity(density, surroundings),
    stop: 'quarter_mile',
    tolerance: 1e-9,
  });
  return known;
}

interface Compared {
  readonly key: 'time' | 'speed' | 'distance' | 'wheel' | 'chemical' | 'slip';
  readonly unit: string;
  readonly words: string;
  readonly value: (event: SolveEvent) => number | undefined;
}

const COMPARED: readonly Compared[] = [
  { key: 'time', unit: 's', words: 'time', value: event => event.time },
  { key: 'speed', unit: 'm/s', words: 'speed', value: event => event.states[SPEED] },
  { key: 'distance', unit: 'm', words: 'distance', value: event => event.states[DISTANCE] },
  // The states end with the wheel speed of the one axle that spins.
  { key: 'wheel', unit: 'rad/s', words: 'speed of the driven wheels', value: event => event.states.at(-1) },
  { key: 'chemical', unit: 'J', words: 'energy out of the cells', value: event => quadrature(event, 'chemical') },
  { key: 'slip', unit: 'J', words: 'energy lost in slip', value: event => quadrature(event, 'slip') },
];

function quadrature(event: SolveEvent, name: (typeof QUADRATURES)[number]): number | undefined {
  return event.integrals[QUADRATURES.indexOf(name)];
}

function checksOf(mark: (typeof MARKS)[number]): Check[] {
  const trivial = mark.endsWith('km_h') ? 'speed' : 'distance';
  return COMPARED.filter(({ key }) => key !== trivial).map(({ key, unit, words, value }) => ({
    id: `spin.front.${mark}.${key}`,
    what: `front drive without traction control, ${words} at ${mark.replaceAll('_', ' ')}`,
    source: SOURCE,
    expected: peer.marks[mark][key],
    computed: () => {
      const event = run().marks.get(mark);
      return (event === undefined ? undefined : value(event)) ?? Number.NaN;
    },
    unit,
    tolerance: { relative: 1e-7 },
  }));
}

export const spin: Topic = {
  title: 'Wheels that spin against a stiff solver of a general-purpose library',
  checks: MARKS.flatMap(mark => checksOf(mark)),
};
