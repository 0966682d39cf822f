/**
 * The launch that the benchmark times, as a process that answers requests. One line in, one line of JSON out, the same
 * for the peers in `peer/`:
 *
 *     added                    methods that launch the bare car (`bare`) with one piece of physics more, and what that is
 *     parameters [spin]        what a peer needs to know of the car, or of the one whose wheels spin
 *     solve METHOD TOLERANCE   one launch: what it found and what it cost
 *     time METHOD TOLERANCE N  N launches: the seconds they took together
 */
import { createInterface } from 'node:readline';
import type { Car, Surroundings } from '../src/model/car.ts';
import { A, AXLE_SIZE, P, blockOf, finite } from './blocks.ts';
import { axleMode, GRIP, L, QUADRATURES } from '../src/model/forward/state.ts';
import { plantParameters } from '../src/model/forward/load.ts';
import { plantFor } from '../src/model/forward/plant.ts';
import { launchLevels } from '../src/runs/launch/marks.ts';
import { createLauncher, launchOnce, TARGET } from '../src/runs/launch/run.ts';
import type { LaunchOptions, LaunchRun } from '../src/runs/launch/run.ts';
import { summarise } from '../src/runs/launch/summary.ts';
import type { Summarised } from '../src/runs/launch/summary.ts';
import { ledgerOf } from '../src/runs/ledger.ts';
import type { Ledger } from '../src/runs/result.ts';
import { withTraction } from '../src/runs/variant.ts';
import { solveExplicit } from '../src/solvers/explicit.ts';
import { solveExtrapolation } from '../src/solvers/extrapolation.ts';
import { ADDED, bare } from './physics.ts';
import given from './car.json' with { type: 'json' };

const car = given.car as Car;
const surroundings = given.surroundings as Surroundings;
const launcher = createLauncher();
const spinning = withTraction(car, 'spin');
const geared = withGears(car);
const bareCar = bare(car);

/** The same car with a kept gearbox of three gears, which it changes twice on the way. */
function withGears(from: Car): Car {
  const gear = (ratio: number, upshift: number) => ({ ratio, efficiency: 0.975, inertia: 0.05, upshift });
  const gearbox = { gears: [gear(1.8, 700), gear(1.1, 850), gear(0.8, 1000)], shiftTime: 0.4 };
  return { ...from, drives: from.drives.map(drive => ({ ...drive, gearbox })) };
}

const METHODS: { readonly [name: string]: (car: Car, options: LaunchOptions) => LaunchRun } = {
  explicit: launcher,
  spin: (_, options) => launcher(spinning, options),
  'spin-explicit': (_, options) => launchOnce(spinning, options, solveExplicit),
  gears: (_, options) => launcher(geared, options),
  odex: (car, options) => launchOnce(car, options, solveExtrapolation),
  bare: (_, options) => launcher(bareCar, options),
  ...Object.fromEntries(
    Object.entries(ADDED).map(([name, add]) => {
      const more = add(bareCar);
      return [methodOf(name), (_: Car, options: LaunchOptions) => launcher(more, options)];
    }),
  ),
};

/** As a word of a request. */
function methodOf(name: string): string {
  return name.replaceAll(/\W+/g, '-');
}

interface Launch {
  readonly run: LaunchRun;
  readonly summary: Summarised;
  readonly ledger: Ledger;
}

/** All that a sweep does for one car and takes from it: packing, the run, every output, the ledger. */
function launch(method: string, tolerance: number): Launch {
  const start = METHODS[method];
  if (start === undefined) throw new RangeError(`no method ${method}`);
  const options: LaunchOptions = { surroundings, stop: 'quarter_mile', tolerance };
  const run = start(car, options);
  return { run, summary: summarise(run, car, options), ledger: ledgerOf(run) };
}

function solve(method: string, tolerance: number): object {
  const { run, summary } = launch(method, tolerance);
  const { statistics, integrals, nodes } = run.solution;
  const q = run.plant.quadratures;
  const peaks = Object.entries(summary.values).filter(([key]) => /^(peak_|lowest_)/.test(key));
  return {
    times: Object.fromEntries([...run.marks].map(([mark, event]) => [mark, event.time])),
    energies: Object.fromEntries(QUADRATURES.map((name, j) => [name, integrals[(nodes - 1) * q + j]])),
    peaks: Object.fromEntries(peaks),
    evaluations: statistics.evaluations,
    steps: statistics.steps,
    switches: statistics.switches,
  };
}

function time(method: string, tolerance: number, count: number): object {
  const [start, before] = [performance.now(), process.cpuUsage().user];
  for (let i = 0; i < count; i++) launch(method, tolerance);
  return { seconds: (performance.now() - start) / 1000, user: (process.cpuUsage().user - before) / 1e6 };
}

/** What a peer knows: a car with one drive, one gear, no torque table, and none of its temperatures a state. */
const KNOWN_LIMITS = ['torque', 'power', 'busVoltage', 'speed', 'minVoltage', 'current', 'shaft', 'pedal'] as const;

/** The packed car, and where each number of it stands. */
function parameters(of: Car): object {
  const packed = plantParameters(of, surroundings);
  const plant = plantFor(packed);
  const { front, rear, heat, gears } = plant.shape;
  const one = (front === 'free') !== (rear === 'free');
  if (!one || heat || gears || packed.front.tabled || packed.rear.tabled) {
    throw new RangeError('the peers have no such car in them');
  }
  const start = plant.initial(0);
  // A car that comes to rest is none for the peers, which look for what rises.
  const levels = launchLevels(TARGET, 'quarter_mile', Infinity)
    .filter(({ direction }) => direction === 'rising')
    .map(({ name, state, value, action }) => ({ name, state, value, stop: action === 'stop' }));
  return {
    layout: { P, A, L: Object.fromEntries(KNOWN_LIMITS.map(name => [name, L[name]])), AXLE_SIZE, GRIP, QUADRATURES },
    block: finite(blockOf(packed)),
    ocv: [...packed.pack.ocv],
    resistance: [...packed.pack.ohm],
    start: [...start.subarray(0, plant.states)],
    scales: [...plant.scales],
    mode: axleMode(plant.modeAt(start), rear === 'free' ? 0 : 1),
    spins: front === 'spin' || rear === 'spin',
    wheelInertia: 2 * of.tyres[rear === 'free' ? 'front' : 'rear'].inertia,
    levels,
  };
}

function answer(line: string): object {
  const [request, method = '', tolerance, count] = line.trim().split(/\s+/);
  if (request === 'added') return Object.keys(ADDED).map(name => ({ name, method: methodOf(name) }));
  if (request === 'parameters') return parameters(method === 'spin' ? spinning : car);
  if (request === 'solve') return solve(method, Number(tolerance));
  if (request === 'time') return time(method, Number(tolerance), Number(count));
  throw new RangeError(`no request ${request}`);
}

createInterface({ input: process.stdin }).on('line', line => console.log(JSON.stringify(answer(line))));
