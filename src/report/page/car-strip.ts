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
  ([
    name,
    sketch,
  ]) => html`<li><b>${cellTitle(name)}</b>: ${carText(sketch, used.has(sketch.from ?? '') ? sketches.get(sketch.from ?? '') : undefined)}.</li>
`,
)}</ul></div>
`;
}

/** All of a car, or of one that is made from another what differs. */
function carText(sketch: CarSketch, base: CarSketch | undefined): string {
  if (base === undefined || sketch.from === null) return sketch.parts.filter(text => text !== '').join('; ');
  const differing = sketch.parts.filter((text, k) => text !== base.parts[k] && text !== '');
  const others = [...(differing.length === 0 ? sketch.told : []), ...sketch.besides];
  const what = [...differing, ...(others.length === 0 ? [] : [`another ${others.join(', ')}`])];
  return what.length === 0 ? `as ${cellTitle(sketch.from)}` : `as ${cellTitle(sketch.from)}, but ${what.join('; ')}`;
}
