/** Puts a car on the scales: what its masses come to before and after, against what axles and tyres may carry. */
import { type AxleCheck, checkAxles } from '../../model/body/axle-check.ts';
import type { CompletedLedger } from '../../model/body/complete-ledger.ts';
import { type Balance, type Item, type Move, moveToKeep, type Weighed, weighed } from '../../model/body/mass-ledger.ts';
import type { System } from '../../units.ts';
import type { Result, Summary } from '../result.ts';
import type { WeighSummary } from '../summaries/weigh.ts';
import { refused } from '../rules.ts';
import { sound } from '../sound.ts';
import { weighOutputs } from './outputs.ts';
import { axleSeries, itemSeries, stateSeries } from './series.ts';
import { lengthText, shareText } from './text.ts';
import { overloads, trainMass, weighWarnings } from './warnings.ts';

type Question = Pick<CompletedLedger, 'ledger' | 'limits' | 'keep' | 'hitched'>;

/**
 * Works a completed ledger out. `system` is for the units in its sentences; its numbers are SI.
 * @throws SpecError for what is no completed ledger.
 */
export function weigh(question: Question, system: System = 'metric'): Result<WeighSummary> {
  const given: Partial<Question> | null | undefined = question;
  if (typeof given?.ledger?.wheelbase !== 'number') throw refused('question', question, 'what completeLedger gives');
  const { ledger, limits } = question;
  const states = weighed(ledger);
  const checks = checkAxles(states.full, limits);
  const moves = ledger.in.map(item => moveOf(item, states.kerb, question));
  const { summary, reasons } = summarise(question, states, checks, moves, system);
  return sound({
    kind: 'weigh',
    summary,
    reasons,
    outputs: weighOutputs,
    series: {
      states: stateSeries(states),
      items: itemSeries(question, moves),
      axles: axleSeries(question, states, checks),
    },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: weighWarnings(states, question, checks, system),
    broken: overloads(states, question, checks, system),
    opinion: null,
  });
}

function moveOf(item: Item, kerb: Balance, { ledger, keep }: Question): Move {
  return moveToKeep(kerb, ledger.wheelbase, item, keep.share, keep.room);
}

type Numbers = { readonly [key: string]: number };

function balanceOf(prefix: string, { front, rear, frontShare, x, height }: Balance): Numbers {
  return {
    [`${prefix}front`]: front,
    [`${prefix}rear`]: rear,
    [`${prefix}front_share`]: frontShare,
    [`${prefix}cg_x`]: x,
    [`${prefix}cg_height`]: height,
  };
}

function summarise(
  { ledger, limits, keep, hitched }: Question,
  { before, kerb, driven, full }: Weighed,
  { front, rear }: { readonly front: AxleCheck; readonly rear: AxleCheck },
  moves: readonly Move[],
  system: System,
): { readonly summary: Summary; readonly reasons: { readonly [key: string]: string } } {
  const speeds = [front.tyreSpeed, rear.tyreSpeed].filter(speed => speed !== null);
  const index = keep.move === null ? -1 : ledger.in.findIndex(item => item.name === keep.move);
  const move = moves[index];
  const found: { readonly [key: string]: number | string | null } = {
    kerb_mass: kerb.mass,
    mass_change: kerb.mass - before.mass,
    kerb_mass_before: before.mass,
    driven_mass: driven.mass,
    full_mass: full.mass,
    ...balanceOf('', driven),
    wheelbase: ledger.wheelbase,
    ...balanceOf('before_', before),
    ...balanceOf('kerb_', kerb),
    ...balanceOf('full_', full),
    front_share_change: kerb.frontShare - before.frontShare,
    payload: limits.gross === null ? null : limits.gross - kerb.mass,
    gross_margin: limits.gross === null ? null : limits.gross - full.mass,
    train_mass: hitched === null ? null : trainMass(full, hitched),
    train_margin: hitched === null || limits.train === null ? null : limits.train - trainMass(full, hitched),
    hitch_margin: hitched === null || limits.hitch === null ? null : limits.hitch - hitched.item.mass,
    front_margin: front.margin,
    rear_margin: rear.margin,
    front_tyre_margin: front.tyreMargin,
    rear_tyre_margin: rear.tyreMargin,
    tyre_speed: speeds.length === 0 ? null : Math.min(...speeds),
    move: keep.move,
    move_by: move?.kind === 'moved' ? move.by : null,
    move_to: move?.kind === 'moved' ? move.to : null,
  };
  // In the order of the outputs, so that tables and exports need no order of their own.
  const summary = Object.fromEntries(Object.keys(weighOutputs).map(key => [key, found[key] ?? null]));
  const reasons = Object.entries(summary).flatMap(([key, value]) =>
    value === null
      ? [[key, key.startsWith('move') ? whyNoMove(move, keep, system) : (WHY[key] ?? 'is not known')]]
      : [],
  );
  return { summary, reasons: Object.fromEntries(reasons) as { readonly [key: string]: string } };
}

const NO_GROSS = 'no permitted gross mass is given';
const NO_TRAILER = 'there is no trailer, or no limit for it is given';
const NO_INDEX = 'no load index is given for these tyres';
const WHY: { readonly [key: string]: string } = {
  payload: NO_GROSS,
  gross_margin: NO_GROSS,
  train_mass: 'there is no trailer',
  train_margin: NO_TRAILER,
  hitch_margin: NO_TRAILER,
  front_margin: 'no permitted front axle load is given',
  rear_margin: 'no permitted rear axle load is given',
  front_tyre_margin: NO_INDEX,
  rear_tyre_margin: NO_INDEX,
  tyre_speed: 'no speed symbol is given',
};

function whyNoMove(move: Move | undefined, keep: Question['keep'], system: System): string {
  if (move?.kind !== 'outside') return 'the cell names nothing that is to be moved';
  const end = move.to < keep.room.min ? 'foremost' : 'rearmost';
  return (
    `for a front share of ${shareText(keep.share)} it would have to stand at ${lengthText(Math.abs(move.to), system)} ${move.to < 0 ? 'in front of' : 'behind'} the front axle, outside the car; ` +
    `at its ${end} place, ${lengthText(move.limit, system)}, the front share comes to ${shareText(move.share)}`
  );
}
