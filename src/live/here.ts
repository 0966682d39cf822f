/// <reference lib="dom" />
/** Where a control stands on the curve of a sweep over the same input. */
import { linesOf, standAt } from './pointer.ts';
import { shownIn } from './saving.ts';

/** @param panel of the controls. */
export function showHere(panel: HTMLElement): void {
  const controls = [...panel.querySelectorAll<HTMLElement>('.knob[data-path]')].flatMap(row => {
    const input = row.querySelector<HTMLInputElement>('input[type=range]');
    const path = row.dataset['path'] ?? '';
    return input === null ? [] : [{ input, axis: axisOf(path, input.dataset['unit'] ?? '') }];
  });
  for (const picture of document.querySelectorAll<HTMLElement>('section.sweep .picture')) {
    const svg = shownIn(picture);
    const [line] = svg === null ? [] : linesOf(svg);
    const control = controls.find(({ axis }) => axis === line?.said[1]);
    const seen = svg !== null && svg.getClientRects().length > 0;
    const stands =
      seen &&
      line !== undefined &&
      control !== undefined &&
      standAt(picture, svg, line, Number(control.input.value), 'here');
    if (!stands) picture.querySelector(':scope > .here')?.remove();
  }
}

/** The title of an axis over an input, without the name of its car: `mass, kg`. */
function axisOf(path: string, unit: string): string {
  const tail = path.slice(path.indexOf('.') + 1);
  return unit === '' ? tail : `${tail}, ${unit}`;
}
