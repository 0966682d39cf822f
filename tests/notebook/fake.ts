/** A launch that is over at once, for tests of what stands around it. */
import { fieldNeeds, readCell, readFieldsOf } from '../../src/notebook/cells/fields.ts';
import type { CellKind } from '../../src/notebook/cells/kind.ts';
import { calc } from '../../src/notebook/cells/calc.ts';
import { check } from '../../src/notebook/cells/check.ts';
import { plot } from '../../src/notebook/cells/plot.ts';
import { resultYield } from '../../src/notebook/cells/result.ts';
import type { NotebookOutcome, CellBlock } from '../../src/notebook/document/outcome.ts';
import { problemText } from '../../src/notebook/document/problem.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import type { Fields } from '../../src/model/fields/field.ts';
import type { Result } from '../../src/runs/result.ts';

const same = (unit: string) => ({ metric: unit, imperial: unit });
const KMH = { metric: 'km/h', imperial: 'mph' };

const fields = {
  mass: { kind: 'number', unit: 'kg', display: same('kg'), min: 1, max: 5000, doc: 'mass', required: true },
  after: { kind: 'reference', to: ['dummy'], doc: 'another run' },
} as const satisfies Fields;

/** A run of `time` = 8.3 s with a trace of three points. */
export const dummyResult: Result = {
  kind: 'dummy',
  summary: { time_to_100_km_h: 8.3, top_speed: 50, limiter: 'motor speed', time_to_160_km_h: null },
  reasons: { time_to_160_km_h: 'the car never gets there' },
  outputs: {
    time_to_100_km_h: { label: 'to 100 km/h', unit: 's', display: same('s'), doc: '' },
    top_speed: { label: 'top speed', unit: 'm/s', display: KMH, doc: '' },
    limiter: { label: 'limiter', unit: '', display: same(''), doc: '' },
    time_to_160_km_h: { label: 'to 160 km/h', unit: 's', display: same('s'), doc: '' },
  },
  series: {
    time: {
      time_s: { label: 'time', unit: 's', display: same('s'), values: Float64Array.of(0, 1, 2) },
      speed_m_s: { label: 'speed', unit: 'm/s', display: KMH, values: Float64Array.of(0, 10, Number.NaN) },
      limiter: { label: 'limiter', unit: '', display: same(''), values: ['grip', 'grip', 'motor power'] },
    },
    traction: { speed_m_s: { label: 'speed', unit: 'm/s', display: KMH, values: Float64Array.of(5) } },
  },
  bands: [],
  events: [],
  ledger: { in: {}, out: {}, stored: {}, gap: 0 },
  warnings: [],
  opinion: null,
};

/** `yaml dummy NAME` with `mass` and `after`; a mass of 13 kg makes it fail as no cell should. */
export const dummy: CellKind = {
  kind: 'dummy',
  language: 'yaml',
  named: true,
  doc: 'a run for tests',
  fields,
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, fields),
      run(world) {
        const { values, inputs } = readFieldsOf(map, fields, world, cell.piece.name);
        if (values['mass'] === 13) throw new TypeError('a fault');
        return resultYield(dummyResult, inputs, world.system);
      },
    };
  },
};

export const KINDS: readonly CellKind[] = [dummy, calc, plot, check];

export const fence = (info: string, content: string): string => `\`\`\`${info}\n${content}\n\`\`\`\n`;
export const dash: string = fence('yaml dummy dash', 'mass: 1010 kg');

export function run(text: string): NotebookOutcome {
  return runNotebook(text, { file: 'a.md', kinds: KINDS });
}

/** `line:column: path: message; ...` of every problem, without the source. */
export function complaints(outcome: NotebookOutcome): string[] {
  return outcome.problems.map(problem => problemText({ ...problem, source: '' }).replace('a.md:', ''));
}

export function cell(outcome: NotebookOutcome, name: string): CellBlock {
  const block = outcome.blocks.find(each => each.kind === 'cell' && each.name === name);
  if (block?.kind !== 'cell') throw new Error(`no cell ${name}`);
  return block;
}
