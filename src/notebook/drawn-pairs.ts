/** Draws that cannot contradict each other: fields of which one stays below another, by `below` of the field tables. */
import type { NumberField } from '../model/fields/field.ts';
import type { Uncertain } from '../studies/sampling/uncertain.ts';

/** A number of the car, and whether it is written in its specification. */
export interface Known {
  readonly value: number;
  readonly written: boolean;
  readonly field: NumberField;
}

type Draft = { -readonly [K in keyof Uncertain]: Uncertain[K] };

/**
 * The same inputs with limits between which any draws fit together, and with what goes along with them.
 * @param known all numbers of the car by their paths.
 */
export function fitting(drawn: readonly Uncertain[], known: ReadonlyMap<string, Known>): Uncertain[] {
  const drafts = new Map<string, Draft>(drawn.map(input => [input.path, { ...input }]));
  for (const [path, { field, value, written }] of known) {
    const { below } = field;
    if (below === undefined) continue;
    const above = pathFrom(path, below.path);
    const limit = known.get(above)?.value;
    if (limit === undefined) continue;
    const [dependent, lead] = [drafts.get(path), drafts.get(above)];
    if (below.as === 'order') {
      const times = below.times === undefined ? 1 : (known.get(pathFrom(path, below.times))?.value ?? 1);
      keepApart({ value, draft: dependent }, { value: limit, draft: lead }, times);
    } else {
      if (dependent !== undefined) cut(dependent, (below.least ?? 0) * limit, limit);
      if (lead !== undefined && (written || dependent !== undefined)) {
        lead.carries = [...(lead.carries ?? []), { path, value }];
      }
    }
  }
  return [...drafts.values()];
}

interface Side {
  readonly value: number;
  readonly draft: Draft | undefined;
}

/** Each on its own side of a mark, which stands nearer to the one that is surer; `high` counts `times` over. */
function keepApart(low: Side, high: Side, times: number): void {
  const [up, down] = [reach(low.draft, 1), times * reach(high.draft, -1)];
  const [a, b] = [low.value, times * high.value];
  if (!(a < b) || up + down === 0) return;
  const mark = (a * down + b * up) / (up + down);
  if (low.draft !== undefined) cut(low.draft, Number.NEGATIVE_INFINITY, mark);
  if (high.draft !== undefined) cut(high.draft, mark / times, Number.POSITIVE_INFINITY);
}

/** How far draws go to one side: the half width of a rectangle, or a standard uncertainty. */
function reach(draft: Draft | undefined, side: 1 | -1): number {
  if (draft === undefined) return 0;
  const { spread, value } = draft;
  if (spread.kind === 'normal') return spread.standard;
  return Math.max(0, side === 1 ? spread.high - value : value - spread.low);
}

function cut(draft: Draft, min: number, max: number): void {
  draft.min = Math.max(draft.min ?? Number.NEGATIVE_INFINITY, min);
  draft.max = Math.min(draft.max ?? Number.POSITIVE_INFINITY, max);
}

/** `coupe.pack.cell.max_voltage` for `cell/max_voltage` seen from `coupe.pack.min_voltage`. */
function pathFrom(path: string, to: string): string {
  const place = path.split('.').slice(0, -1);
  for (const step of to.split('/')) {
    if (step === '..') place.pop();
    else place.push(step);
  }
  return place.join('.');
}
