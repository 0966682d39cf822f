/**
 * The drives that the benchmark times, as a process that answers requests. One line in, one line of JSON out, the same for the
 * peers in `peer/`:
 *
 *     parameters          what a peer needs to know of the car and the schedule
 *     solve METHOD STEPS  one drive: what it found
 *     time METHOD STEPS N N drives: the seconds they took together
 *
 * METHOD: `wltc`, once, or `depletion`, over and over until the pack is empty, or `frost`, the same at -10 degC (not of a peer). STEPS a second; a peer takes a tolerance.
 */
import { createInterface } from 'node:readline';
import { scheduleNamed } from '../src/cycles/schedules.ts';
import type { Trip } from '../src/cycles/trip.ts';
import type { Car, Surroundings } from '../src/model/car.ts';
import { followParameters } from '../src/model/backward/load.ts';
import { travelLedger } from '../src/runs/schedule/ledger.ts';
import { createTraveller } from '../src/runs/schedule/trip.ts';
import type { TravelOptions, TravelRun } from '../src/runs/schedule/trip.ts';
import { A, AXLE_SIZE, blockOf, F, FA, FA_SIZE, finite, followBlockOf, P } from './blocks.ts';
import given from './car.json' with { type: 'json' };

const plain = given.car as Car;
const mass = plain.pack.series * plain.pack.parallel * plain.pack.cell.mass;
const heat = {
  capacity: 1400 * mass,
  cooling: 0.03 * mass,
  derateAt: 323.15,
  derateRange: 10,
  resistanceActivation: 2400,
};
const car: Car = { ...plain, pack: { ...plain.pack, heat } };
const surroundings = given.surroundings as Surroundings;
const schedule = scheduleNamed('wltc');
const trip: Trip = { title: 'WLTC', parts: [{ kind: 'leg', schedule, load: null }] };
const travel = createTraveller();

const METHODS: { readonly [name: string]: Partial<TravelOptions> } = {
  wltc: { charge: 0.9 },
  depletion: { charge: car.pack.window.high, untilEmpty: true },
  frost: { charge: car.pack.window.high, untilEmpty: true, surroundings: { ...surroundings, temperature: 263.15 } },
};

/** All that a sweep does for one car: packing, the run, every energy of the ledger. */
function drive(method: string, steps: number): { readonly run: TravelRun; readonly gap: number } {
  const options = METHODS[method];
  if (options === undefined) throw new RangeError(`no method ${method}`);
  const run = travel(car, trip, { surroundings, steps, ...options });
  return { run, gap: travelLedger(run).gap };
}

const ENERGIES = ['power', 'unitHeat', 'gearHeat', 'spinUp', 'slip', 'rolling', 'drag', 'grade', 'brakes'] as const;

function solve(method: string, steps: number): object {
  const { run, gap } = drive(method, steps);
  const { sums, pack } = run.follower;
  return {
    energies: { ...Object.fromEntries(ENERGIES.map(name => [name, sums[name]])), packHeat: pack.heat },
    distance: run.distance,
    charge: pack.charge,
    status: run.status,
    gap,
  };
}

function time(method: string, steps: number, count: number): object {
  const [start, before] = [performance.now(), process.cpuUsage().user];
  for (let i = 0; i < count; i++) drive(method, steps);
  return { seconds: (performance.now() - start) / 1000, user: (process.cpuUsage().user - before) / 1e6 };
}

/** What a peer knows: a car with one drive, one gear, losses by the formula, and no heated cabin. */
function parameters(): object {
  const packed = followParameters(car, surroundings);
  const { pack, front, rear, shape } = packed;
  const mapped = front.loss !== null || rear.loss !== null;
  if (car.drives.length !== 1 || shape.gears || mapped || car.cabin.heater !== 'none') {
    throw new RangeError('the peers have no such car in them');
  }
  return {
    layout: { P, A, F, FA, AXLE_SIZE, FA_SIZE },
    block: finite(blockOf(packed)),
    follow: finite(followBlockOf(packed)),
    ocv: [...pack.ocv],
    resistance: [...pack.ohm],
    axle: car.drives[0]!.axle === 'front' ? 0 : 1,
    speed: [...schedule.speed],
    start: [METHODS['wltc']!.charge, 0, 0, surroundings.temperature],
    auxiliaries: car.auxiliaries.power / car.auxiliaries.converterEfficiency,
    energies: [...ENERGIES, 'packHeat'],
  };
}

function answer(line: string): object {
  const [request, method = '', steps, count] = line.trim().split(/\s+/);
  if (request === 'parameters') return parameters();
  if (request === 'solve') return solve(method, Number(steps));
  if (request === 'time') return time(method, Number(steps), Number(count));
  throw new RangeError(`no request ${request}`);
}

createInterface({ input: process.stdin }).on('line', line => console.log(JSON.stringify(answer(line))));
