import type { Car } from '../../../src/model/car.ts';
import { CHARGE, DISTANCE, RC, SPEED } from '../../../src/model/forward/state.ts';
import type { Mark } from '../../../src/runs/launch/marks.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import type { LaunchRun } from '../../../src/runs/launch/run.ts';
import type { SolveEvent } from '../../../src/solvers/system.ts';
import type { Check, Topic } from '../check.ts';
import { roadWithDensity } from '../ideal.ts';
import cases from '../peer/cars.json' with { type: 'json' };
import peer from '../peer/launch.json' with { type: 'json' };

type Name = keyof typeof cases;

const MARKS = ['60_ft', '50_km_h', '100_km_h', 'quarter_mile'] as const satisfies readonly Mark[];

const SOURCE = `the same equations written apart in Python, DOP853 of SciPy ${peer.scipy}, script and results in tests/published/peer`;

const runs = new Map<Name, LaunchRun>();

function run(name: Name): LaunchRun {
  const known = runs.get(name);
  if (known !== undefined) return known;
  const { car, density, surroundings } = cases[name];
  const made = launchOnce(car as Car, {
    surroundings: roadWithDensity(density, surroundings),
    stop: 'quarter_mile',
    tolerance: 1e-10,
  });
  runs.set(name, made);
  return made;
}

interface Compared {
  readonly key: 'time' | 'speed' | 'distance' | 'charge' | 'polarisation' | 'chemical';
  readonly unit: string;
  readonly words: string;
  readonly value: (event: SolveEvent) => number | undefined;
}

const COMPARED: readonly Compared[] = [
  { key: 'time', unit: 's', words: 'time', value: event => event.time },
  { key: 'speed', unit: 'm/s', words: 'speed', value: event => event.states[SPEED] },
  { key: 'distance', unit: 'm', words: 'distance', value: event => event.states[DISTANCE] },
  { key: 'charge', unit: '1', words: 'state of charge', value: event => event.states[CHARGE] },
  { key: 'polarisation', unit: 'V', words: 'polarisation', value: event => event.states[RC] },
  { key: 'chemical', unit: 'J', words: 'energy out of the cells', value: event => event.integrals[0] },
];

function checksOf(name: Name, mark: (typeof MARKS)[number]): Check[] {
  const trivial = mark.endsWith('km_h') ? 'speed' : 'distance';
  return COMPARED.filter(({ key }) => key !== trivial).map(({ key, unit, words, value }) => ({
    id: `scipy.${name}.${mark}.${key}`,
    what: `${name} drive, full model, ${words} at ${mark.replaceAll('_', ' ')}`,
    source: SOURCE,
    expected: peer.cars[name].marks[mark][key],
    computed: () => {
      const event = run(name).marks.get(mark);
      return (event === undefined ? undefined : value(event)) ?? Number.NaN;
    },
    unit,
    tolerance: { relative: 1e-8 },
  }));
}

export const scipy: Topic = {
  title: 'The whole model against a general-purpose library',
  checks: (['front', 'rear'] as const).flatMap(name => MARKS.flatMap(mark => checksOf(name, mark))),
};
