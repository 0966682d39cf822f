/** A standard range test as a kind of run. */
import type { Fields } from '../../model/fields/field.ts';
import { filler } from '../../model/fields/filler.ts';
import { runKind } from '../kind.ts';
import { noFigures } from '../no-answer.ts';
import { createTraveller } from '../schedule/trip.ts';
import { standardOutputs } from './outputs.ts';
import { isStandardTest, STANDARD_TESTS, standardFigures, standardTest } from './range-test.ts';
import type { StandardTest } from './range-test.ts';

const standardFields = {
  standard: { kind: 'choice', choices: STANDARD_TESTS, doc: 'in place of a trip: a test as on a window sticker' },
} as const satisfies Fields;

export const standardKind = runKind<{ readonly test: StandardTest }>({
  kind: 'standard',
  doc: 'the range tests behind the figures on window stickers',
  notes: [
    'wltp: UN GTR 15, consecutive cycles; udds, hwfet: SAE J1634, one cycle over and over; mct: SAE J1634, the multi-cycle test. All at 23 degC, nothing heated',
    'a standard brings its own weather and a full pack, and the car is taken as it is loaded',
  ],
  within: { cell: 'range', by: 'standard' },
  fields: standardFields,
  drivesTrip: false,
  atFullPedal: false,
  outputs: standardOutputs,
  renamed: { time_late: 'time_too_slow' },
  headlines: ['range', 'consumption_wall', 'sticker_range'],
  intervals: ['range', 'consumption_wall', 'consumption'],
  better: {
    range: 'high',
    range_city: 'high',
    range_highway: 'high',
    sticker_range: 'high',
    consumption: 'low',
    consumption_wall: 'low',
    consumption_city: 'low',
    consumption_highway: 'low',
    sticker_consumption: 'low',
    mpg_equivalent: 'high',
    sticker_mpg: 'high',
    time_too_slow: 'low',
  },
  slow: true,
  read({ car, name, values, inputs }) {
    const { standard } = values;
    if (typeof standard !== 'string' || !isStandardTest(standard)) {
      throw filler(name, standardFields, values, inputs).error('standard', 'is no test', STANDARD_TESTS.join(', '));
    }
    return { car, options: { test: standard } };
  },
  run: ({ car, options }) => standardTest(car, options.test),
  createAnswer() {
    const travel = createTraveller();
    return ({ car, options }) => {
      const tested = standardFigures(car, options.test, travel);
      return 'none' in tested ? noFigures(standardOutputs, tested.none) : tested;
    };
  },
});
