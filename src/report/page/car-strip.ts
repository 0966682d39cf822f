/** The cars of an answer, a line each: one that is made from another says what differs. */
import type { Block, CarSketch } from '../../notebook/document/outcome.ts';
import { answeredCars, cellsOf } from './answered.ts';
import { cellTitle } from './cell.ts';
import { type Html, html } from './html.ts';

/** Null where no car is used. */
export function carStrip(blocks: readonly Block[]): Html | null {
  const cells = cellsOf(blocks);
  const sketches = new Map(
    cells.flatMap(({ name, sketch }) => (sketch === undefined ? [] : [[name, sketch] as const])),
  );
  const used = answeredCars(cells, new Set(sketches.keys()));
  const told = [...sketches].filter(([name]) => used.has(name));
  if (told.length === 0) return null;
  return html`<div class="the-cars"><h3>The car${told.length === 1 ? '' : 's'}</h3>
<ul>
${told.map(
  (
    [name, sketch],
    k,
  ) => html`<li><b>${cellTitle(name)}</b>: ${carText(sketch, used.has(sketch.from ?? '') ? sketches.get(sketch.from ?? '') : undefined) ?? likeText(sketch, told.slice(0, k))}.</li>
`,
)}</ul></div>
`;
}

/** All of a car; where most of it was told of an earlier one, as with what logs have measured, the rest. */
function likeText({ parts }: CarSketch, earlier: readonly (readonly [name: string, sketch: CarSketch])[]): string {
  const differing = (other: CarSketch): readonly string[] =>
    parts.filter((text, k) => text !== other.parts[k] && text !== '');
  const [like] = earlier.toSorted((a, b) => differing(a[1]).length - differing(b[1]).length);
  if (like === undefined || differing(like[1]).length > FEW) return parts.filter(text => text !== '').join('; ');
  const rest = differing(like[1]);
  const same = `weight, drive, tyres and pack as ${cellTitle(like[0])}`;
  return rest.length === 0 ? same : `${same}, but ${rest.join('; ')}`;
}

/** Parts in which a car may differ to be told by another one. */
const FEW = 2;

/** Of a car that is made from another what differs; null for one of its own. */
function carText(sketch: CarSketch, base: CarSketch | undefined): string | null {
  if (base === undefined || sketch.from === null) return null;
  const differing = sketch.parts.filter((text, k) => text !== base.parts[k] && text !== '');
  const others = [...(differing.length === 0 ? sketch.told : []), ...sketch.besides];
  const what = [...differing, ...(others.length === 0 ? [] : [`differs in ${others.join(', ')}`])];
  return what.length === 0 ? `as ${cellTitle(sketch.from)}` : `as ${cellTitle(sketch.from)}, but ${what.join('; ')}`;
}
