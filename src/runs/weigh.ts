/** Puts a car on the scales: what its masses come to before and after, against what axles and tyres may carry. */
import { type AxleCheck, checkAxles } from '../model/axle-check.ts';
import type { CompletedLedger } from '../model/complete-ledger.ts';
import { type Balance, type Item, type Move, massOf, moveToKeep, type Weighed, weighed } from '../model/mass-ledger.ts';
import { formatNumber, type System, toDisplay } from '../units.ts';
import type { Column, Result, Series, Summary } from './result.ts';
import { weighOutputs } from './weigh-outputs.ts';
import { weighWarnings } from './weigh-warnings.ts';

type Question = Pick<CompletedLedger, 'ledger' | 'limits' | 'keep'>;

/** Works a completed ledger out. `system` is for the units in its sentences; its numbers are SI. */
export function weigh(question: Question, system: System = 'metric'): Result {
  const { ledger, limits } = question;
  const states = weighed(ledger);
  const checks = checkAxles(states.full, limits);
  const moves = ledger.in.map(item => moveOf(item, states.kerb, question));
  const { summary, reasons } = summarise(question, states, checks, moves, system);
  return {
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
    warnings: weighWarnings(states, limits, checks, system),
    opinion: null,
  };
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
  { ledger, limits, keep }: Question,
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
const NO_INDEX = 'no load index is given for these tyres';
const WHY: { readonly [key: string]: string } = {
  payload: NO_GROSS,
  gross_margin: NO_GROSS,
  front_margin: 'no permitted front axle load is given',
  rear_margin: 'no permitted rear axle load is given',
  front_tyre_margin: NO_INDEX,
  rear_tyre_margin: NO_INDEX,
  tyre_speed: 'no speed symbol is given',
};

function whyNoMove(move: Move | undefined, keep: Question['keep'], system: System): string {
  if (move?.kind !== 'outside') return 'the cell names nothing that is to be moved';
  const metres = (x: number): string => {
    const [unit, label] = system === 'metric' ? (['m', 'm'] as const) : (['in', 'in'] as const);
    return `${formatNumber(toDisplay(x, 'm', unit), 3)}\u00a0${label}`;
  };
  const end = move.to < keep.room.min ? 'foremost' : 'rearmost';
  const share = (part: number): string => `${formatNumber(100 * part, 3)}\u00a0%`;
  return (
    `for a front share of ${share(keep.share)} it would have to stand at ${metres(move.to)} behind the front axle, outside the car; ` +
    `at its ${end} place, ${metres(move.limit)}, the front share comes to ${share(move.share)}`
  );
}

function column(label: string, unit: string, metric: string, imperial: string, values: Column['values']): Column {
  return { label, unit, display: { metric, imperial }, values };
}

const words = (label: string, values: readonly string[]): Column => column(label, '', '', '', values);
const masses = (label: string, values: readonly number[]): Column =>
  column(label, 'kg', 'kg', 'lb', Float64Array.from(values));
const metres = (label: string, values: readonly number[]): Column =>
  column(label, 'm', 'm', 'in', Float64Array.from(values));

function stateSeries(states: Weighed): Series {
  const all = [states.before, states.kerb, states.driven, states.full];
  return {
    state: words('state', ['before, empty', 'now, empty', 'now, with the driver', 'now, fully loaded']),
    mass_kg: masses(
      'mass',
      all.map(state => state.mass),
    ),
    front_kg: masses(
      'front axle',
      all.map(state => state.front),
    ),
    rear_kg: masses(
      'rear axle',
      all.map(state => state.rear),
    ),
    front_share: column(
      'front share',
      '1',
      '%',
      '%',
      Float64Array.from(all, state => state.frontShare),
    ),
    cg_x_m: metres(
      'centre of gravity behind the front axle',
      all.map(state => state.x),
    ),
    cg_height_m: metres(
      'its height',
      all.map(state => state.height),
    ),
  };
}

/** Everything with a mass and a place; `move_m` is empty where the thing stays or can not move that far. */
function itemSeries({ ledger }: Question, moves: readonly Move[]): Series {
  const rows = [
    ...ledger.out.map(item => ({ item, what: 'out', by: Number.NaN })),
    ...ledger.in.map((item, i) => {
      const move = moves[i];
      return { item, what: 'in', by: move?.kind === 'moved' ? move.by : Number.NaN };
    }),
    { item: ledger.driver, what: 'driver', by: Number.NaN },
    ...ledger.load.map(item => ({ item, what: 'load', by: Number.NaN })),
  ];
  return {
    item: words(
      'thing',
      rows.map(({ item }) => item.name),
    ),
    what: words(
      'out or in',
      rows.map(({ what }) => what),
    ),
    count: column(
      'pieces',
      '1',
      '1',
      '1',
      Float64Array.from(rows, ({ item }) => item.count),
    ),
    mass_kg: masses(
      'mass together',
      rows.map(({ item }) => massOf(item)),
    ),
    x_m: metres(
      'behind the front axle',
      rows.map(({ item }) => item.x),
    ),
    height_m: metres(
      'above the road',
      rows.map(({ item }) => item.height),
    ),
    move_m: metres(
      'alone moved back, to keep the front share',
      rows.map(({ by }) => by),
    ),
  };
}

/** One row per axle; what is not known is empty. */
function axleSeries({ ledger, limits }: Question, states: Weighed, checks: ReturnType<typeof checkAxles>): Series {
  const axles = ['front', 'rear'] as const;
  const known = (value: number | null): number => value ?? Number.NaN;
  return {
    axle: words('axle', axles),
    x_m: metres('behind the front axle', [0, ledger.wheelbase]),
    before_kg: masses(
      'before, empty',
      axles.map(axle => states.before[axle]),
    ),
    kerb_kg: masses(
      'now, empty',
      axles.map(axle => states.kerb[axle]),
    ),
    driven_kg: masses(
      'now, with the driver',
      axles.map(axle => states.driven[axle]),
    ),
    full_kg: masses(
      'now, fully loaded',
      axles.map(axle => states.full[axle]),
    ),
    permitted_kg: masses(
      'permitted',
      axles.map(axle => known(limits[axle].permitted)),
    ),
    tyres_kg: masses(
      'both tyres carry',
      axles.map(axle => known(checks[axle].tyres)),
    ),
    load_index: column(
      'load index',
      '1',
      '1',
      '1',
      Float64Array.from(axles, axle => known(limits[axle].loadIndex)),
    ),
    tyre_radius_m: metres(
      'radius of the free tyre',
      axles.map(axle => known(limits[axle].radius)),
    ),
  };
}
