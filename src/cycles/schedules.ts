/** The schedules that ship, by name. Each is worked out when it is first asked for: most runs need one of them, if any. */
import { nearest } from '../units/nearest.ts';
import { HWFET } from './data/hwfet.ts';
import { EXTRA_URBAN, URBAN } from './data/nedc.ts';
import { NYCC } from './data/nycc.ts';
import { UDDS } from './data/udds.ts';
import { US06 } from './data/us06.ts';
import { EXTRA_HIGH, HIGH, LOW, MEDIUM } from './data/wltc.ts';
import { join, phaseOf, stretch } from './join.ts';
import { everySecond, fromBreakPoints, fromTenthsOfKmH, fromTenthsOfMph } from './sampled.ts';
import { ScheduleError } from './schedule-error.ts';
import type { Schedule } from './schedule.ts';

const COPY = 'from public copies of the column files, compared with each other; the regulation itself was not read';

const WLTC_SOURCE =
  'UN GTR No. 15, Annex 1: Low3, Medium3-2, High3-2, Extra High3. From a public copy of the table; distance, greatest ' +
  'speed and the sum of the speeds of each phase agree with the published ones; the regulation itself was not read';

const NEDC_SOURCE =
  'UN Regulation No. 83, Annex 4a, Tables 1 and 2, as break points without the 2 s holds while gears are changed: 11.022 km, ' +
  '0.14 % more than the 11.007 km of the regulation. From a public copy; the regulation itself was not read';

/** s of the transient part of the UDDS, from its start. */
const TRANSIENT = 505;

const SCHEDULES = {
  wltc: (): Schedule =>
    join('WLTC, class 3b', WLTC_SOURCE, [
      { name: 'low', schedule: ofSeconds('', WLTC_SOURCE, fromTenthsOfKmH(LOW)) },
      { name: 'medium', schedule: ofSeconds('', WLTC_SOURCE, fromTenthsOfKmH(MEDIUM)) },
      { name: 'high', schedule: ofSeconds('', WLTC_SOURCE, fromTenthsOfKmH(HIGH)) },
      { name: 'extra high', schedule: ofSeconds('', WLTC_SOURCE, fromTenthsOfKmH(EXTRA_HIGH)) },
    ]),
  wltc_low: (): Schedule => phaseOf(scheduleNamed('wltc'), 'low'),
  wltc_medium: (): Schedule => phaseOf(scheduleNamed('wltc'), 'medium'),
  wltc_high: (): Schedule => phaseOf(scheduleNamed('wltc'), 'high'),
  wltc_extra_high: (): Schedule => phaseOf(scheduleNamed('wltc'), 'extra high'),
  udds: (): Schedule => ({
    ...ofSeconds('UDDS', `40 CFR Part 86, Appendix I (a); ${COPY}`, fromTenthsOfMph(UDDS)),
    phases: [
      { name: 'transient', from: 0, to: TRANSIENT },
      { name: 'stabilised', from: TRANSIENT, to: 1369 },
    ],
  }),
  ftp75: (): Schedule => {
    const udds = scheduleNamed('udds');
    const source = `the UDDS, then its first ${TRANSIENT} s again; the test has a stop of 10 min between them, which is not in it. ${udds.source}`;
    return join('FTP-75, without its stop of 10 min', source, [
      { name: 'cold transient', schedule: phaseOf(udds, 'transient') },
      { name: 'stabilised', schedule: phaseOf(udds, 'stabilised') },
      { name: 'hot transient', schedule: phaseOf(udds, 'transient') },
    ]);
  },
  hwfet: (): Schedule => ofSeconds('HWFET', `40 CFR Part 600, Appendix I; ${COPY}`, fromTenthsOfMph(HWFET)),
  us06: (): Schedule => ofSeconds('US06', `40 CFR Part 86, Appendix I (g); ${COPY}`, fromTenthsOfMph(US06)),
  nycc: (): Schedule => ofSeconds('NYCC', `40 CFR Part 86, Appendix I (e); ${COPY}`, fromTenthsOfMph(NYCC)),
  nedc: (): Schedule => {
    const urban = ofBreakPoints(URBAN);
    return join('NEDC, without gear-change holds', NEDC_SOURCE, [
      { name: 'urban 1', schedule: urban },
      { name: 'urban 2', schedule: urban },
      { name: 'urban 3', schedule: urban },
      { name: 'urban 4', schedule: urban },
      { name: 'extra-urban', schedule: ofBreakPoints(EXTRA_URBAN) },
    ]);
  },
  nedc_urban: (): Schedule => stretch(scheduleNamed('nedc'), 'NEDC, urban part, without gear-change holds', 0, 780),
  nedc_extra_urban: (): Schedule =>
    stretch(scheduleNamed('nedc'), 'NEDC, extra-urban part, without gear-change holds', 780, 1180),
} as const satisfies { readonly [name: string]: () => Schedule };

export type ScheduleName = keyof typeof SCHEDULES;

/** Names of all schedules that ship, as a notebook writes them. */
export const scheduleNames: readonly ScheduleName[] = Object.keys(SCHEDULES) as ScheduleName[];

export function isScheduleName(name: string): name is ScheduleName {
  return Object.hasOwn(SCHEDULES, name);
}

const known = new Map<ScheduleName, Schedule>();

/** A schedule that ships; the same object each time. @throws ScheduleError for a name that there is none of. */
export function scheduleNamed(name: ScheduleName): Schedule {
  if (!isScheduleName(name)) throw unknownSchedule(name);
  let schedule = known.get(name);
  if (schedule === undefined) {
    schedule = SCHEDULES[name]();
    known.set(name, schedule);
  }
  return schedule;
}

function unknownSchedule(name: unknown): ScheduleError {
  const meant = nearest(String(name), scheduleNames);
  const cure = meant === '' ? `expected one of ${scheduleNames.join(', ')}` : `did you mean "${meant}"?`;
  return new ScheduleError('name', `no schedule is called "${String(name)}"; ${cure}`);
}

function ofSeconds(title: string, source: string, speed: Float64Array): Schedule {
  return { title, source, time: everySecond(speed), speed, slope: null, phases: [] };
}

function ofBreakPoints(figures: string): Schedule {
  return { title: '', source: NEDC_SOURCE, ...fromBreakPoints(figures), slope: null, phases: [] };
}
