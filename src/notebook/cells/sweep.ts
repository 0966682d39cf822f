/** `yaml sweep NAME`: runs over a grid of one to four parameters. */
import type { Json } from '../../batch/canonical.ts';
import type { SweepPayload } from '../../batch/evaluators.ts';
import type { Table } from '../../batch/table.ts';
import type { Fields } from '../../model/field.ts';
import { SpecError } from '../../model/spec-error.ts';
import type { SpecOf } from '../../model/spec.ts';
import type { Column, Result } from '../../runs/result.ts';
import { gridOf, gridPlaces } from '../../studies/grid.ts';
import { paretoFront } from '../../studies/pareto.ts';
import { axisFields, axisOf } from './axes.ts';
import type { Axis } from './axes.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { resultYield } from './result.ts';
import { figureColumn, figureKey, ofField, outputsField, studyOf } from './study.ts';
import type { Study } from './study.ts';

export const sweepFields = {
  of: ofField,
  over: {
    kind: 'groups',
    fields: axisFields,
    doc: 'one to four of them; the last one changes fastest',
    required: true,
  },
  outputs: outputsField,
  lowest: { kind: 'words', doc: 'figures that are better when low, for the front of best compromises' },
  highest: { kind: 'words', doc: 'figures that are better when high' },
} as const satisfies Fields;

type SweepSpec = SpecOf<typeof sweepFields>;

const MOST_ROWS = 5_000_000;

export const sweep: CellKind = {
  kind: 'sweep',
  language: 'yaml',
  named: true,
  doc: 'runs over a grid of one to four parameters: curves, contours, and the best compromises',
  fields: sweepFields,
  notes: ['a change of pack.parallel or pack.series changes the mass of the car by 1.4 times that of the cells'],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, sweepFields),
      run(world) {
        const { name } = cell.piece;
        const { values, inputs } = readFieldsOf(map, sweepFields, world, name);
        const spec: SweepSpec = values;
        const { study, axes } = withSpec(map, name, () => {
          const found = studyOf(name, spec, world);
          const rows = spec.over ?? [];
          if (rows.length < 1 || rows.length > 4)
            throw new SpecError(`${name}.over`, `has ${rows.length} entries`, 'one to four');
          return { study: found, axes: rows.map((row, k) => axisOf(`${name}.over[${k + 1}]`, row, found, world)) };
        });
        const rows = axes.reduce((product, axis) => product * axis.values.length, 1);
        const wishes = withSpec(map, name, () => {
          if (rows > MOST_ROWS) throw new SpecError(`${name}.over`, `makes ${rows} runs`, `${MOST_ROWS} at most`);
          return wishesOf(name, spec, study);
        });
        const payload: SweepPayload = {
          subject: study.subject,
          axes: axes.map(axis => axis.values.map(value => axis.changes(value))),
        };
        const columns = study.figures.map(figureKey);
        return {
          whole: true,
          job: { kind: 'sweep', payload: payload as unknown as Json, rows, columns },
          finish: table =>
            resultYield(resultOf(study, axes, wishes, table), [...study.inputs, ...inputs], world.system),
        };
      },
    };
  },
};

interface Wish {
  readonly figure: number;
  readonly wish: 'lowest' | 'highest';
}

function wishesOf(name: string, spec: SweepSpec, { figures }: Study): Wish[] {
  return (['lowest', 'highest'] as const).flatMap(wish =>
    (spec[wish] ?? []).map(word => {
      const figure = figures.findIndex(each => each.name === word || each.key === word);
      if (figure < 0)
        throw new SpecError(
          `${name}.${wish}`,
          `"${word}" is not among the outputs`,
          figures.map(each => each.name).join(', '),
        );
      return { figure, wish };
    }),
  );
}

function resultOf(study: Study, axes: readonly Axis[], wishes: readonly Wish[], table: Table): Result {
  const grid = gridOf(axes.map(({ values }) => ({ kind: 'list', values })));
  const places = Array.from({ length: grid.rows }, (_, row) => gridPlaces(grid, row));
  const series: { [key: string]: Column } = {};
  for (const [k, axis] of axes.entries()) {
    const { label, unit, display } = axis;
    series[`at_${k + 1}`] =
      axis.names.length > 0
        ? {
            label,
            unit: '',
            display: { metric: '', imperial: '' },
            values: places.map(place => axis.names[place[k]!]!),
          }
        : { label, unit, display, values: Float64Array.from(places, place => axis.values[place[k]!]!) };
  }
  const columns = study.figures.map(figure => table.column(figureKey(figure)));
  for (const [k, figure] of study.figures.entries()) series[figureKey(figure)] = figureColumn(figure, columns[k]!);
  if (wishes.length > 1) {
    const front = new Set(
      paretoFront(
        wishes.map(({ figure }) => columns[figure]!),
        wishes.map(({ wish }) => (wish === 'lowest' ? 'low' : 'high')),
      ),
    );
    series['on_front'] = {
      label: 'best compromise',
      unit: '',
      display: { metric: '', imperial: '' },
      values: places.map((_, row) => (front.has(row) ? 'yes' : 'no')),
    };
  }
  const missing = columns.reduce((sum, column) => sum + column.filter(Number.isNaN).length, 0);
  const why = places.map((_, row) => table.code(row)).find(code => code !== '');
  const count = { metric: '1', imperial: '1' };
  return {
    kind: 'sweep',
    summary: { runs: grid.rows, missing },
    reasons: {},
    outputs: {
      runs: { label: 'runs', unit: '1', display: count, doc: 'points of the grid' },
      missing: { label: 'without an answer', unit: '1', display: count, doc: 'figures that a run does not have' },
    },
    series: { rows: series },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: why === undefined ? [] : [`Some of the runs make no sense, the first one because ${why}`],
    opinion: null,
    verdicts: [],
  };
}
