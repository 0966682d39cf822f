/** The range tests behind the figures on window stickers, at 23 degC with nothing heated. */
import { phaseOf } from '../cycles/join.ts';
import { scheduleNamed, type ScheduleName } from '../cycles/schedules.ts';
import { steadyOver, steadySchedule, withRamps } from '../cycles/steady.ts';
import type { Leg, Stop, Trip } from '../cycles/trip.ts';
import type { Car, Surroundings } from '../model/car.ts';
import { disagreement, driveOpinion, inOrder, travelWarnings } from './drive.ts';
import { noAnswer } from './no-answer.ts';
import { rangeSettings } from './range.ts';
import type { Result } from './result.ts';
import { standardOutputs } from './standard-outputs.ts';
