/** What would make a launch quicker: one thing at a time that a workshop could change, each worked out by a run of its own. */
import { UNLISTED } from '../../model/fields/filler.ts';
import type { AxleName, Car } from '../../model/car.ts';
import { completeCar } from '../../model/complete.ts';
import { misfitsOf } from '../../model/pack/voltage-window.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { createAsk, refusal } from '../../runs/answer/ask.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { Question } from '../../runs/answer/question.ts';
import type { Lever, LeverKind, Result } from '../../runs/result.ts';

/** Steps that are of a size which can be bought or done; common practice, no source. */
const STEP = { friction: 0.1, share: 0.02, mass: 50, tenth: 0.1 } as const;

/** K at which the figures of cells are stated, and K below it from which on warming up is worth a look. */
const WARM = 298.15;
const COLD = 5;

/** A pack as full as it is used is not filled further. */
const FULL = 0.02;

/** The tolerance of samples and sweeps: a hundredth of a second is told. */
const TOLERANCE = 1e-6;

/** @returns in no order; empty where the launch has no time to its target. */
export function leversOf(question: Question, result: Result): readonly Lever[] {
  const own = result.summary['time'];
  if (question.run.kind !== 'launch' || typeof own !== 'number') return [];
  const ask = createAsk(question, { wanted: ['time', 'mass'], tolerance: TOLERANCE });
  const { car } = completeCar(question.spec, question.car, new Map(question.measured), UNLISTED);
  const base = ask([]).summary;
  const [before, weight] = [Number(base['time']), Number(base['mass'])];
  return candidates(question, car).map(({ what, from, to, changes }): Lever => {
    const none = { what, from, to, heavier: 0, time: null, gain: null };
    const broken = what === 'series' ? chargerMisfit(car, to) : null;
    if (broken !== null) return { ...none, reason: broken };
    try {
      const { summary, reasons } = ask(changes);
      const { time, mass } = summary;
      if (typeof time !== 'number') return { ...none, reason: reasons['time'] ?? 'the run has no answer' };
      const heavier = what === 'mass' ? 0 : Number(mass) - weight;
      return { what, from, to, heavier, time: own + time - before, gain: before - time, reason: '' };
    } catch (error) {
      return { ...none, reason: whyNot(error) };
    }
  });
}

/** Why the charger can not fill a pack of so many cells in series; inverter and contactors refuse it by themselves. */
function chargerMisfit({ pack, charger }: Car, series: number): string | null {
  if (charger.voltage === undefined) return null;
  const maxVoltage = (pack.maxVoltage * series) / pack.series;
  const misfit = misfitsOf({ ...pack, series, maxVoltage }, charger.voltage).find(({ side }) => side === 'greatest');
  return misfit === undefined ? null : `the greatest voltage of the charger ${misfit.words}`;
}

/** Why a car can not be so, without the path of its field: the words of the field say enough. */
function whyNot(error: unknown): string {
  if (!(error instanceof SpecError)) return refusal(error);
  return `${error.path.replace(/^.*\./u, '').replaceAll('_', ' ')} ${error.message}`;
}

interface Candidate extends Pick<Lever, 'what' | 'from' | 'to'> {
  readonly changes: readonly Change[];
}

function candidates(question: Question, car: Car): readonly Candidate[] {
  const { values } = question.run;
  const at = (path: string): string => `${question.car}.${path}`;
  const one = (what: LeverKind, path: string, from: number, to: number): Candidate => ({
    what,
    from,
    to,
    changes: [{ path, value: to }],
  });
  const { pack, body } = car;
  const { pedal } = values;
  const soaked = values['soaked'] ?? values['temperature'];
  return [
    ...friction(question, car),
    ...driven(car).map(axle => {
      const share = body.frontShare + (axle === 'front' ? STEP.share : -STEP.share);
      return one('weight on the driven axle', at('front_share'), body.frontShare, share);
    }),
    one('mass', at('mass'), body.mass, body.mass - STEP.mass),
    one('parallel', at('pack.parallel'), pack.parallel, pack.parallel + 1),
    one('series', at('pack.series'), pack.series, Math.round((1 + STEP.tenth) * pack.series)),
    ...(pack.charge < pack.window.high - FULL ? [one('charge', at('pack.charge'), pack.charge, pack.window.high)] : []),
    ...(typeof soaked === 'number' && soaked < WARM - COLD
      ? [one('warmth', `${question.name}.soaked`, soaked, WARM)]
      : []),
    ...(typeof pedal === 'number' && pedal < 1 ? [one('pedal', `${question.name}.pedal`, pedal, 1)] : []),
    ...units(question.spec.drive, car, at),
  ];
}

/** The one driven axle; none where both are. */
function driven({ drives }: Car): readonly AxleName[] {
  return drives.length === 1 ? drives.map(({ axle }) => axle) : [];
}

/** A little more peak friction under every driven wheel, on the road of the launch. */
function friction({ car: name, spec, run }: Question, car: Car): readonly Candidate[] {
  const surface = run.values['surface'] ?? 'dry';
  if (surface !== 'dry' && surface !== 'wet' && surface !== 'snow' && surface !== 'ice') return [];
  const [axle] = car.drives.map(drive => drive.axle);
  const peak = axle === undefined ? undefined : car.tyres[axle][surface]?.peak;
  if (peak === undefined) return [];
  const groups = new Set(
    car.drives.map(drive => {
      const own = drive.axle === 'front' ? spec.frontTyres : spec.rearTyres;
      return own === undefined ? 'tyres' : `${drive.axle}_tyres`;
    }),
  );
  const to = peak + STEP.friction;
  const changes = [...groups].map(group => ({ path: `${name}.${group}.${surface}_peak`, value: to }));
  return [{ what: 'friction', from: peak, to, changes }];
}

/** Gearing, ratings and half shafts of the first drive. */
function units(
  spec: Question['spec']['drive'],
  { drives: [drive] }: Car,
  at: (path: string) => string,
): readonly Candidate[] {
  if (drive === undefined || spec === undefined) return [];
  const scaled = (what: LeverKind, path: string, from: number, factor: number): Candidate => ({
    what,
    from,
    to: factor * from,
    changes: [{ path: at(path), value: factor * from }],
  });
  const { peakTorque, peakPower } = spec.unit ?? {};
  return [
    scaled('ratio', 'drive.ratio', drive.ratio, 1 + STEP.tenth),
    scaled('ratio', 'drive.ratio', drive.ratio, 1 - STEP.tenth),
    ...(peakTorque === undefined ? [] : [scaled('torque', 'drive.unit.peak_torque', peakTorque, 1 + STEP.tenth)]),
    ...(peakPower === undefined ? [] : [scaled('power', 'drive.unit.peak_power', peakPower, 1 + STEP.tenth)]),
    ...(spec.shaftTorque === undefined
      ? []
      : [scaled('half shafts', 'drive.shaft_torque', spec.shaftTorque, 1 + STEP.tenth)]),
  ];
}
