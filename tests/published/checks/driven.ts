import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Cabin, Car } from '../../../src/model/car.ts';
import type { Powers } from '../../../src/model/backward/state.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import type { TravelRun } from '../../../src/runs/schedule/trip.ts';
import { testComfort } from '../../cars.ts';
import { trip } from '../../trips.ts';
import type { Check, Topic } from '../check.ts';
import { roadWithDensity } from '../ideal.ts';
import cases from '../peer/cars.json' with { type: 'json' };
import peer from '../peer/drive.json' with { type: 'json' };

type Name = keyof typeof cases;
const NAMES = ['front', 'rear'] as const satisfies readonly Name[];
const SCHEDULES = ['wltc', 'udds'] as const;
type ScheduleName = (typeof SCHEDULES)[number];

const SOURCE = `the same equations written apart in Python, DOP853 of SciPy ${peer.scipy} at 1e-10 second by second, script and results in tests/published/peer`;

const runs = new Map<string, TravelRun>();

/** The cars of the launch on a cold day, with the heat of the pack and a heated cabin. */
function run(name: Name, schedule: ScheduleName): TravelRun {
  const key = `${name} ${schedule}`;
  const known = runs.get(key);
  if (known !== undefined) return known;
  const { density, surroundings } = cases[name];
  const given = cases[name].car as Car;
  const car: Car = {
    ...given,
    cabin: { ...testComfort.cabin, ...(peer.cabin as Partial<Cabin>) },
    // Never so warm that its ratings would be reduced.
    pack: { ...given.pack, heat: { ...peer.heat, derateAt: 400, derateRange: 50 } },
  };
  const day = roadWithDensity(density, { ...surroundings, temperature: peer.day.temperature });
  const made = travelOnce(car, trip(scheduleNamed(schedule)), { surroundings: day });
  runs.set(key, made);
  return made;
}

interface Compared {
  readonly key: Exclude<keyof (typeof peer.cars)['front']['wltc'], 'evaluations'>;
  readonly unit: string;
  readonly words: string;
  readonly value: (run: TravelRun) => number;
}

const energy = (key: Compared['key'], words: string, at: keyof Powers): Compared => ({
  key,
  unit: 'J',
  words,
  value: ({ follower }) => follower.sums[at],
});

const COMPARED: readonly Compared[] = [
  energy('terminals', 'energy out of the terminals', 'power'),
  {
    key: 'cells',
    unit: 'J',
    words: 'energy out of the cells',
    value: made => travelLedger(made).in['out of the cells']!,
  },
  { key: 'charge', unit: '1', words: 'state of charge', value: ({ follower }) => follower.pack.charge },
  { key: 'polarisation', unit: 'V', words: 'polarisation', value: ({ follower }) => follower.pack.pair1 },
  {
    key: 'temperature',
    unit: 'K',
    words: 'temperature of the pack',
    value: ({ follower }) => follower.pack.temperature,
  },
  { key: 'pack', unit: 'J', words: 'heat of the pack', value: ({ follower }) => follower.pack.heat },
  energy('unit', 'heat of motor and inverter', 'unitHeat'),
  energy('gears', 'heat of gears and shafts', 'gearHeat'),
  energy('slip', 'tyre slip', 'slip'),
  energy('rolling', 'rolling resistance', 'rolling'),
  energy('drag', 'drag', 'drag'),
  energy('brakes', 'brakes', 'brakes'),
  energy('auxiliaries', 'consumers, heater included', 'auxiliaries'),
];

function checksOf(name: Name, schedule: ScheduleName): Check[] {
  return COMPARED.map(({ key, unit, words, value }) => ({
    id: `driven.${name}.${schedule}.${key}`,
    what: `${name} drive on the ${schedule.toUpperCase()} at 5 °C, ${words}`,
    source: SOURCE,
    expected: peer.cars[name][schedule][key],
    computed: () => value(run(name, schedule)),
    unit,
    tolerance: { relative: 2e-6 },
  }));
}

export const driven: Topic = {
  title: 'Whole schedules against a general-purpose library',
  checks: NAMES.flatMap(name => SCHEDULES.flatMap(schedule => checksOf(name, schedule))),
};
