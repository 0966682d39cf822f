import { phaseOf } from '../../../src/cycles/join.ts';
import type { Schedule } from '../../../src/cycles/schedule.ts';
import { type ScheduleName, scheduleNamed } from '../../../src/cycles/schedules.ts';
import { statistics } from '../../../src/cycles/statistics.ts';
import { printed } from '../check.ts';
import type { Check, Tolerance, Topic } from '../check.ts';

const GTR = 'UN GTR No. 15 / UN Regulation No. 154, as quoted on a public page';
const SUM = 'checksum of UN GTR No. 15, Annex 1, as quoted in public excerpts';
const MILE = 1609.344;
const MPH = 0.44704;
const KMH = 1 / 3.6;

interface Figure {
  readonly expected: number;
  readonly decimals: number;
  readonly source: string;
}

type Kind = 'duration' | 'distance' | 'mean' | 'max';

const WORDS = { duration: 'duration', distance: 'distance', mean: 'mean speed', max: 'greatest speed' } as const;

function value(schedule: Schedule, kind: Kind, unit: string): number {
  const { duration, distance, meanSpeed, maxSpeed } = statistics(schedule);
  if (kind === 'duration') return duration;
  if (kind === 'distance') return distance / (unit === 'mi' ? MILE : 1000);
  return (kind === 'mean' ? meanSpeed : maxSpeed) / (unit === 'mph' ? MPH : KMH);
}

function figure(
  name: string,
  schedule: () => Schedule,
  kind: Kind,
  unit: string,
  { expected, decimals, source }: Figure,
  tolerance: Tolerance = printed(decimals),
): Check {
  return {
    id: `cycles.${name}.${kind}.${unit.replace('/', '_')}`,
    what: `${schedule().title}: ${WORDS[kind]}`,
    source,
    expected,
    computed: () => value(schedule(), kind, unit),
    unit,
    tolerance,
  };
}

/** Figures as printed; their decimals are those of the text. */
function figures(
  name: ScheduleName,
  source: string,
  rows: readonly (readonly [Kind, string, string, ...string[]])[],
): Check[] {
  return rows.map(([kind, printedValue, unit, other]) => {
    const decimals = printedValue.split('.')[1]?.length ?? 0;
    const found = { expected: Number(printedValue), decimals, source: other ?? source };
    return figure(name, () => scheduleNamed(name), kind, unit, found);
  });
}

/** The regulation adds up the speeds of every second, in km/h. */
function checksum(name: string, schedule: () => Schedule, expected: number, source: string): Check {
  return {
    id: `cycles.${name}.checksum`,
    what: `${schedule().title}: sum of the speeds of every second`,
    source,
    expected,
    computed: () => schedule().speed.reduce((sum, v) => sum + v / KMH, 0),
    unit: 'km/h',
    tolerance: printed(1),
  };
}

const phase = (name: string) => (): Schedule => phaseOf(scheduleNamed('wltc'), name);

export const cycles: Topic = {
  title: 'Driving schedules',
  checks: [
    ...figures('wltc', GTR, [
      ['duration', '1800', 's'],
      ['distance', '23.266', 'km'],
      ['max', '131.3', 'km/h'],
    ]),
    ...figures('wltc_low', GTR, [
      ['duration', '589', 's'],
      ['distance', '3.095', 'km'],
      ['max', '56.5', 'km/h'],
    ]),
    ...figures('wltc_medium', GTR, [
      ['duration', '433', 's', 'UN GTR No. 15: what the other three phases leave of 1800 s'],
      ['distance', '4.756', 'km'],
      ['max', '76.6', 'km/h'],
    ]),
    ...figures('wltc_high', GTR, [
      ['duration', '455', 's'],
      ['distance', '7.162', 'km'],
      ['max', '97.4', 'km/h'],
    ]),
    ...figures('wltc_extra_high', GTR, [
      ['duration', '323', 's'],
      ['distance', '8.254', 'km'],
      ['max', '131.3', 'km/h'],
    ]),
    checksum('wltc_low', phase('low'), 11140.3, `${SUM}: low and medium together 28261.5, less the medium phase`),
    checksum('wltc_medium', phase('medium'), 17121.2, SUM),
    checksum('wltc_high', phase('high'), 25782.2, SUM),
    checksum('wltc_extra_high', phase('extra high'), 29714.9, SUM),
    checksum('wltc', () => scheduleNamed('wltc'), 83758.6, SUM),
    ...figures('udds', 'published summary of 40 CFR Part 86, Appendix I (a), on a public page', [
      ['duration', '1369', 's', 'published summary of 40 CFR Part 86, Appendix I (a), from memory'],
      ['distance', '7.45', 'mi'],
      ['mean', '19.6', 'mph'],
      ['max', '56.7', 'mph'],
    ]),
    figure(
      'udds_first_505_s',
      () => phaseOf(scheduleNamed('udds'), 'transient', 'UDDS, first 505 s'),
      'distance',
      'km',
      { expected: 5.78, decimals: 2, source: 'published summary of the FTP-75 on a public page' },
    ),
    figure('udds_first_505_s', () => phaseOf(scheduleNamed('udds'), 'transient', 'UDDS, first 505 s'), 'mean', 'km/h', {
      expected: 41.2,
      decimals: 1,
      source: 'published summary of the FTP-75 on a public page',
    }),
    ...figures('ftp75', 'published summary of the FTP-75, from memory', [
      ['duration', '1874', 's'],
      ['distance', '11.04', 'mi'],
    ]),
    ...figures('hwfet', 'published summary of 40 CFR Part 600, Appendix I, from memory', [
      ['duration', '765', 's'],
      ['distance', '10.26', 'mi'],
      ['mean', '48.3', 'mph'],
      ['max', '59.9', 'mph'],
    ]),
    ...figures('us06', 'published summary of 40 CFR Part 86, Appendix I (g), in a public encyclopedia', [
      ['distance', '8.01', 'mi'],
      ['max', '80.3', 'mph'],
    ]),
    ...figures('nycc', 'published summary of 40 CFR Part 86, Appendix I (e), from memory', [
      ['duration', '598', 's'],
      ['distance', '1.18', 'mi'],
      ['mean', '7.1', 'mph'],
      ['max', '27.7', 'mph'],
    ]),
    ...figures('nedc', 'UN Regulation No. 83, Annex 4a, from memory', [
      ['duration', '1180', 's'],
      ['max', '120', 'km/h'],
    ]),
    figure(
      'nedc',
      () => scheduleNamed('nedc'),
      'distance',
      'km',
      {
        expected: 11.007,
        decimals: 3,
        source: 'UN Regulation No. 83, with its holds while gears are changed, as quoted on a public page',
      },
      { relative: 0.0015 },
    ),
  ],
};
