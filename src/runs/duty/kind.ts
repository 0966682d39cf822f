/** What parts must stand as a kind of run: so that it can be varied, sought, ranked and has intervals. */
import { dutyFields } from '../../model/duty/fields.ts';
import type { DutySpec } from '../../model/duty/fields.ts';
import { runKind } from '../kind.ts';
import type { Asked, RunKind } from '../kind.ts';
import type { Result } from '../result.ts';
import { duty } from './duty.ts';
import type { NamedRun } from './runs.ts';
import { DUTY_COUNTS, withDoubts } from './told-lines.ts';

/** Runs as they were asked for, with those that have no currents told apart. */
function ran({ within = [], values }: Asked, kindOf: (kind: string) => RunKind): readonly NamedRun[] | string {
  const runs: NamedRun[] = [];
  // Currents and torques come with their trail; the back-EMF asks for the top speed.
  const spec: DutySpec = values;
  const wanted = ['current_rms', ...(spec.inverter?.backEmf === undefined ? [] : ['top_speed'])];
  for (const asked of within) {
    const result = kindOf(asked.kind).run(asked, { wanted });
    if (result.trail === undefined) return whyNone(asked.name, result);
    runs.push({ name: asked.name, result, trail: result.trail });
  }
  return runs;
}

function whyNone(name: string, { reasons }: Result): string {
  const [why = 'it gives no currents'] = Object.values(reasons);
  return `${name} has no answer: ${why}`;
}

/** @param kindOf the kinds of the runs that it is taken from. */
export function dutyKind(kindOf: (kind: string) => RunKind): RunKind {
  return runKind<Asked>({
    kind: 'duty',
    doc: 'what parts must stand in other runs of the car',
    fields: dutyFields,
    drivesTrip: false,
    atFullPedal: false,
    // They hang on the axles of the car and on what is said of its parts: those of the result.
    outputs: {},
    headlines: ['pack_current_10_s', 'shaft_torque', 'coolant_heat'],
    intervals: [],
    better: {},
    slow: true,
    withIntervals: withDoubts,
    read: asked => ({ car: asked.car, options: asked }),
    run: ({ options }) => tableOf(options, kindOf),
    createAnswer:
      wanted =>
      ({ options }) => {
        const runs = ran(options, kindOf);
        if (typeof runs === 'string') {
          const keys = wanted ?? Object.keys(DUTY_COUNTS);
          return {
            summary: Object.fromEntries(keys.map(key => [key, null])),
            reasons: Object.fromEntries(keys.map(key => [key, runs])),
          };
        }
        const { summary, reasons } = duty({ ...options, runs, spec: options.values, inputs: [] });
        return { summary, reasons };
      },
  });
}

function tableOf(asked: Asked, kindOf: (kind: string) => RunKind): Result {
  const runs = ran(asked, kindOf);
  if (typeof runs === 'string') throw new RangeError(runs);
  return duty({ ...asked, runs, spec: asked.values });
}
