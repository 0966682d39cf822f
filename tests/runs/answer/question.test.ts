import { expect, test } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import type { Leg, Trip } from '../../../src/cycles/trip.ts';
import type { PlainTrip } from '../../../src/runs/answer/question.ts';
import { plainTrip, tripOf } from '../../../src/runs/answer/question.ts';

const leg = (name: 'udds' | 'hwfet' | 'nycc'): Leg => ({ kind: 'leg', schedule: scheduleNamed(name), load: null });
const legs = (trip: Trip): Leg[] => trip.parts.flatMap(part => (part.kind === 'leg' ? [part] : []));

test('a schedule that is driven again is the same one after the trip went through JSON', () => {
  const trip: Trip = {
    title: 'mixed',
    parts: [leg('udds'), leg('hwfet'), { kind: 'stop', seconds: 60 }, leg('udds'), leg('nycc'), leg('hwfet')],
  };
  const plain = JSON.parse(JSON.stringify(plainTrip(trip))) as PlainTrip;
  const [udds, hwfet, again, nycc, last, ...rest] = legs(tripOf(plain)).map(({ schedule }) => schedule);
  expect(rest).toEqual([]);
  expect(again).toBe(udds);
  expect(last).toBe(hwfet);
  expect(new Set([udds, hwfet, nycc]).size).toBe(3);
  expect(udds?.speed).toEqual(scheduleNamed('udds').speed);
  expect(nycc?.time).toEqual(scheduleNamed('nycc').time);
});

test('schedules of one name that differ in a speed or in a slope stay two', () => {
  const udds = scheduleNamed('udds');
  const slower = { ...udds, speed: udds.speed.map(speed => 0.9 * speed) };
  const hilly = { ...udds, slope: new Float64Array(udds.time.length - 1).fill(0.02) };
  const flat = { ...udds, slope: new Float64Array(udds.time.length - 1) };
  const trip: Trip = {
    title: 'three',
    parts: [udds, slower, hilly, flat].map((schedule): Leg => ({ kind: 'leg', schedule, load: null })),
  };
  expect(new Set(legs(tripOf(plainTrip(trip))).map(({ schedule }) => schedule)).size).toBe(4);
});
