/** The columns of a weighing: the states, the things with their places, the axles with their limits. */
import type { checkAxles } from '../../model/body/axle-check.ts';
import type { CompletedLedger } from '../../model/body/complete-ledger.ts';
import { carried, massOf, type Move, type Weighed } from '../../model/body/mass-ledger.ts';
import type { Column, Series } from '../result.ts';
import { column, textColumn } from '../column.ts';

function words<T>(label: string, rows: readonly T[], of: (row: T) => string): Column {
  return textColumn(label, rows.map(of));
}

function masses<T>(label: string, rows: readonly T[], of: (row: T) => number): Column {
  return column(label, 'kg', 'kg', 'lb', Float64Array.from(rows, of));
}

function metres<T>(label: string, rows: readonly T[], of: (row: T) => number): Column {
  return column(label, 'm', 'm', 'in', Float64Array.from(rows, of));
}

/** The four states, one row each. */
export function stateSeries(states: Weighed): Series {
  const all = [states.before, states.kerb, states.driven, states.full];
  return {
    state: textColumn('state', ['before, empty', 'now, empty', 'now, with the driver', 'now, fully loaded']),
    mass_kg: masses('mass', all, state => state.mass),
    front_kg: masses('front axle', all, state => state.front),
    rear_kg: masses('rear axle', all, state => state.rear),
    front_share: column(
      'front share',
      '1',
      '%',
      '%',
      Float64Array.from(all, state => state.frontShare),
    ),
    cg_x_m: metres('centre of gravity behind the front axle', all, state => state.x),
    cg_height_m: metres('its height', all, state => state.height),
  };
}

/** Everything with a mass and a place; `move_m` is empty where the thing stays or can not move that far. */
export function itemSeries({ ledger }: Pick<CompletedLedger, 'ledger'>, moves: readonly Move[]): Series {
  const rows = [
    ...ledger.out.map(item => ({ item, what: 'out', by: Number.NaN })),
    ...ledger.in.map((item, i) => {
      const move = moves[i];
      return { item, what: 'in', by: move?.kind === 'moved' ? move.by : Number.NaN };
    }),
    { item: ledger.driver, what: 'driver', by: Number.NaN },
    ...carried(ledger).map(item => ({ item, what: 'load', by: Number.NaN })),
  ];
  return {
    item: words('thing', rows, ({ item }) => item.name),
    what: words('out or in', rows, ({ what }) => what),
    count: column(
      'pieces',
      '1',
      '1',
      '1',
      Float64Array.from(rows, ({ item }) => item.count),
    ),
    mass_kg: masses('mass together', rows, ({ item }) => massOf(item)),
    x_m: metres('behind the front axle', rows, ({ item }) => item.x),
    height_m: metres('above the road', rows, ({ item }) => item.height),
    move_m: metres('alone moved back, to keep the front share', rows, ({ by }) => by),
  };
}

/** One row per axle; what is not known is empty. */
export function axleSeries(
  { ledger, limits }: Pick<CompletedLedger, 'ledger' | 'limits'>,
  states: Weighed,
  checks: ReturnType<typeof checkAxles>,
): Series {
  const axles = ['front', 'rear'] as const;
  const known = (value: number | null): number => value ?? Number.NaN;
  return {
    axle: words('axle', axles, axle => axle),
    x_m: metres('behind the front axle', axles, axle => (axle === 'front' ? 0 : ledger.wheelbase)),
    before_kg: masses('before, empty', axles, axle => states.before[axle]),
    kerb_kg: masses('now, empty', axles, axle => states.kerb[axle]),
    driven_kg: masses('now, with the driver', axles, axle => states.driven[axle]),
    full_kg: masses('now, fully loaded', axles, axle => states.full[axle]),
    permitted_kg: masses('permitted', axles, axle => known(limits[axle].permitted)),
    tyres_kg: masses('both tyres carry', axles, axle => known(checks[axle].tyres)),
    load_index: column(
      'load index',
      '1',
      '1',
      '1',
      Float64Array.from(axles, axle => known(limits[axle].loadIndex)),
    ),
    tyre_radius_m: metres('radius of the free tyre', axles, axle => known(limits[axle].radius)),
  };
}
