/** What happens during a launch, in words: marks passed, gears changed, and what takes over from what in holding the car back. */
import { axleMode, BREAK, gearOf, GRIP, L, LIMIT_BITS, SLIDE } from '../../model/forward/state.ts';
import type { SolveEvent } from '../../solvers/system.ts';
import type { ResultEvent } from '../result.ts';
import { markWords } from './marks.ts';
import type { LaunchRun } from './run.ts';

/** What each limit is called in a sentence. */
const LIMIT_WORDS: { readonly [limit: number]: string } = {
  [L.torque]: 'motor torque',
  [L.power]: 'motor power',
  [L.busVoltage]: 'the sagging pack voltage',
  [L.speed]: 'motor speed',
  [L.minVoltage]: 'the lowest pack voltage',
  [L.current]: 'pack current',
  [L.shaft]: 'the torque of the half shafts',
  [L.pedal]: 'the pedal',
  [L.heatTorque]: 'the heat of the drive unit',
  [L.heatPower]: 'the heat of the drive unit',
  [L.packHeat]: 'the heat of the pack',
  [L.packCold]: 'the cold of the pack',
  [L.packLow]: 'the low charge of the pack',
  [L.split]: 'the fixed split between the axles',
  [L.buildUp]: 'the build-up of the torque',
};

const AXLES = ['front', 'rear'] as const;

/** Everything worth a line, in order of time. */
export function launchEvents(run: LaunchRun): readonly ResultEvent[] {
  const both = run.plant.driven.length > 1;
  const list: ResultEvent[] = run.solution.events
    .filter(event => event.kind === 'switch')
    .flatMap(event => switchWords(event, both).map(what => ({ time: event.time, what })));
  const timed = new Set([...run.marks].filter(([mark]) => mark !== 'to').map(([, event]) => event.time));
  for (const [mark, event] of run.marks) {
    // The target speed is told by its own name only where no mark lies there.
    if (mark !== 'to' || !timed.has(event.time)) list.push({ time: event.time, what: markWords(mark) });
  }
  return list.toSorted((a, b) => a.time - b.time);
}

/** @param both whether two axles are driven, and each is named. */
function switchWords({ from, to }: Pick<SolveEvent, 'from' | 'to'>, both: boolean): readonly string[] {
  if (to < 0) return [];
  const words: string[] = [];
  const [left, taken] = [gearOf(from) + 1, gearOf(to) + 1];
  if ((to & BREAK) !== 0 && (from & BREAK) === 0) words.push(`gear ${left} is let go`);
  if (taken !== left) words.push(`gear ${taken} is engaged`);
  if (words.length > 0) return words;
  for (const [axle, name] of AXLES.entries()) {
    const what = axleWords(axleMode(from, axle), axleMode(to, axle));
    if (what !== '') words.push(both ? `${name} axle: ${what}` : what);
  }
  return words;
}

/** @param from bits of an axle in a mode. */
function axleWords(from: number, to: number): string {
  if ((to & SLIDE) !== (from & SLIDE)) {
    return (to & SLIDE) === 0 ? 'the wheels take hold again' : 'the wheels spin past the peak of friction';
  }
  if ((to & GRIP) !== (from & GRIP)) return (to & GRIP) === 0 ? 'leaves the grip limit' : 'meets the grip limit';
  const [before, after] = [LIMIT_WORDS[from & LIMIT_BITS], LIMIT_WORDS[to & LIMIT_BITS]];
  if (before === after || before === undefined || after === undefined) return '';
  // At the grip limit it is what would come next, had the tyres not come first: nobody sees it change.
  return (to & GRIP) === 0 ? `${before} gives way to ${after}` : '';
}
