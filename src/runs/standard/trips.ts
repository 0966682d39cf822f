/** What the standard range tests have driven. */
import type { Schedule } from '../../cycles/schedule.ts';
import { scheduleNamed } from '../../cycles/schedules.ts';
import { distanceOf } from '../../cycles/statistics.ts';
import { steadyOver, steadySchedule, withRamps } from '../../cycles/steady.ts';
import type { Leg, Stop, Trip } from '../../cycles/trip.ts';
import type { TravelRun } from '../schedule/trip.ts';

export const STANDARD_TESTS = ['wltp', 'udds', 'hwfet', 'mct'] as const;

export type StandardTest = (typeof STANDARD_TESTS)[number];

export function isStandardTest(word: string): word is StandardTest {
  return STANDARD_TESTS.some(test => test === word);
}

export const TEST_TITLES: { readonly [test in StandardTest]: string } = {
  wltp: 'UN GTR 15, consecutive cycles',
  udds: 'SAE J1634, UDDS over and over',
  hwfet: 'SAE J1634, HWFET over and over',
  mct: 'SAE J1634, multi-cycle test',
};

/** s with the key on between two cycles that belong together (40 CFR 600.116-12). */
const PAUSE = 15;

/** s with the key off: 10 min (40 CFR 600.116-12); between the constant speeds it allows 5 to 30 min. */
const SOAK = 600;

/** m/s of the constant speed: 65 mph (SAE J1634, from memory). */
const CONSTANT = (65 * 1609.344) / 3600;

/** Of the whole distance, the constant speed at the end: 20 % at most (SAE J1634, from memory). */
const END_SHARE = 0.15;

/** s of one leg at constant speed at the end, and how many there are: 3500 km. */
const STRETCH = 600;
const STRETCHES = 200;

/** m of constant speed in the middle that are not worth getting up to speed for. */
const SHORTEST = 5000;

/** The cycles that a test counts, each kind once; the first kind starts from cold. */
export function cyclesOfTest(test: StandardTest): readonly Schedule[] {
  if (test === 'mct') return [scheduleNamed('udds'), scheduleNamed('hwfet')];
  return [scheduleNamed(test === 'wltp' ? 'wltc' : test)];
}

/** The cycles of the multi-cycle test in their order. */
const MULTI_CYCLE: readonly ('udds' | 'hwfet')[] = ['udds', 'hwfet', 'udds', 'udds', 'hwfet', 'udds'];

/**
 * One cycle, to be driven over and over: UN GTR No. 15 without a break; UDDS with 10 min key off, HWFET with 15 s key on between two
 * (SAE J1634, from memory).
 */
export function testTrip(test: 'wltp' | 'udds' | 'hwfet'): Trip {
  const cycle = leg(scheduleNamed(test === 'wltp' ? 'wltc' : test));
  const between = test === 'udds' ? [SOAKED] : test === 'hwfet' ? [pause()] : [];
  return { title: TEST_TITLES[test], parts: [cycle, ...between] };
}

/**
 * UDDS, HWFET, UDDS, constant speed, UDDS, HWFET, UDDS, constant speed to the end. The constant speed in the middle is
 * chosen so that 15 % of the way are left for the end: a first drive without it shows how long it must be.
 * @param drive until empty.
 */
export function multiCycleTrip(drive: (trip: Trip) => TravelRun): Trip {
  const { distance } = drive(multiCycle(0));
  return multiCycle(distance * (1 - END_SHARE) - multiCycleDistance());
}

/** m of the cycles alone. */
export function multiCycleDistance(): number {
  return MULTI_CYCLE.reduce((sum, name) => sum + distanceOf(scheduleNamed(name)), 0);
}

function multiCycle(middle: number): Trip {
  const [udds, hwfet] = [leg(scheduleNamed('udds')), leg(scheduleNamed('hwfet'))];
  const half = [udds, pause(), hwfet, SOAKED, udds, SOAKED];
  const constant = middle < SHORTEST ? [] : [atRestBetween(middle), SOAKED];
  return { title: TEST_TITLES.mct, parts: [...half, ...constant, ...half, ...toTheEnd()] };
}

/** From rest to rest over so many metres. */
function atRestBetween(metres: number): Leg {
  return leg(withRamps(steadyOver(CONSTANT, metres), 'distance', { from: 0, to: 0 }));
}

/** From rest up to the constant speed, and on. */
function toTheEnd(): readonly Leg[] {
  const up = leg(withRamps(steadySchedule(CONSTANT, STRETCH), 'time', { from: 0, to: CONSTANT }));
  const on = leg(steadySchedule(CONSTANT, STRETCH));
  return [up, ...Array.from({ length: STRETCHES }, () => on)];
}

const SOAKED: Stop = { kind: 'stop', seconds: SOAK };

function pause(): Leg {
  return leg({ ...steadySchedule(0, PAUSE), title: 'pause' });
}

function leg(schedule: Schedule): Leg {
  return { kind: 'leg', schedule, load: null };
}
