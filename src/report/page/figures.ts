/** Pictures and the tables behind them as HTML. */
import { type Picture, type PictureTable, THEME } from '../../plots/kit/picture.ts';
import type { Pictures } from '../kind.ts';
import { breakable } from './breakable.ts';
import { finished, type Html, html } from './html.ts';
import { type DrawPair, drawPair } from './draw-pair.ts';
import { DrawingError } from './drawing.ts';
import { withTold } from './told.ts';

/** CSS px of the two drawings of a picture; the page shows the one that fits. */
const WIDE = 720;
const SLIM = 340;

/** A picture drawn twice, its words, and its numbers in a table that opens. `id` must be unique in the page. */
export async function figureOf(picture: Picture, id: string): Promise<Html> {
  return drawnOr(picture.title, async () => {
    const [wide, slim] = await drawPair(...drawingsOf(picture, id));
    return html`<figure class="picture" id="${id}">
<div class="wide" role="img" aria-label="${picture.title}">${finished(wide.svg)}</div>
<div class="slim" role="img" aria-label="${picture.title}">${finished(slim.svg)}</div>
<figcaption><strong>${picture.title}.</strong> ${picture.caption}</figcaption>
<details class="numbers"><summary>The numbers of this picture</summary>${numbersTable(picture.table, picture.title)}</details>
</figure>
`;
  });
}

/** What is drawn of a picture. */
export function drawingsOf(picture: Picture, id: string): Parameters<DrawPair> {
  const spec = (width: number): object => withTold(picture.spec(width));
  return [
    [spec(WIDE), `${id}-w`],
    [spec(SLIM), `${id}-s`],
  ];
}

/** Pictures one below the other, on paper two side by side as a telephone has them; null where there are none. @param id in front of their names. */
export async function figuresOf(pictures: Pictures, id: string): Promise<Html | null> {
  // All at once, so that neither of the two threads that draw waits for the other one.
  const drawn = await Promise.all(pictures.map(([name, picture]) => figureOf(picture, `${id}-${name}`)));
  return drawn.length === 0 ? null : html`<div class="pictures">${drawn}</div>`;
}

/** A drawing; in its place, why there is none. */
async function drawnOr(title: string, drawing: () => Promise<Html>): Promise<Html> {
  try {
    return await drawing();
  } catch (error) {
    if (!(error instanceof DrawingError)) throw error;
    return html`<p class="warning"><strong>${title} could not be drawn:</strong> ${error.message}</p>`;
  }
}

/** The chart of a plot cell; what can not be drawn is said in its place. */
export async function chartOf(chart: { readonly title: string; readonly spec: object }, id: string): Promise<Html> {
  return drawnOr(chart.title, async () => {
    const [wide, slim] = await drawPair([fitted(chart.spec, WIDE), `${id}-w`], [fitted(chart.spec, SLIM), `${id}-s`]);
    const warnings = wide.warnings.map(
      warning => html`<p class="warning"><strong>About this picture:</strong> ${warning}</p>`,
    );
    return html`<figure class="picture chart" id="${id}">
<div class="wide" role="img" aria-label="${chart.title}">${finished(wide.svg)}</div>
<div class="slim" role="img" aria-label="${chart.title}">${finished(slim.svg)}</div>
<figcaption><strong>${chart.title}.</strong> Drawn as the notebook asks; the numbers are in its cells.</figcaption>
${warnings}</figure>
`;
  });
}

/** px kept beside the plot for an axis and its title. */
const BESIDE = 76;

/** A spec without a width of its own gets one; one with views inside keeps what it says. */
function fitted(spec: object, width: number): object {
  const single = 'mark' in spec || 'layer' in spec;
  if (!single || 'width' in spec) return spec;
  const config = 'config' in spec ? (spec.config as object) : {};
  return { ...spec, width: width - BESIDE, config: { ...THEME, ...config } };
}

/** A table that scrolls inside itself where the page is narrow. */
export function numbersTable(table: PictureTable, caption: string): Html {
  return html`<div class="scroll" role="group" aria-label="${caption}" tabindex="0"><table class="figures">
<caption>${caption}</caption>
<thead><tr>${table.columns.map(column => (column === '' ? html`<td></td>` : html`<th scope="col">${column}</th>`))}</tr></thead>
<tbody>
${table.rows.map(
  row => html`<tr>${row.map((cell, i) => (i === 0 ? html`<th scope="row">${breakable(cell)}</th>` : html`<td>${cell}</td>`))}</tr>
`,
)}</tbody></table></div>`;
}
