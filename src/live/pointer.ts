/// <reference lib="dom" />
/** A reader points into a picture: it says the values there, and so do all that are drawn over the same. */
import type { Trace } from '../report/page/traces.ts';
import { shownIn } from './saving.ts';

type Said = NonNullable<Trace>;

/** A line of a drawing with its points, px of its own. */
interface Line {
  readonly said: Said;
  readonly path: SVGPathElement;
  readonly points: readonly (readonly [x: number, y: number])[];
}

const known = new WeakMap<SVGSVGElement, readonly Line[]>();

export function followPointer(): void {
  let frame = 0;
  document.addEventListener('pointermove', ({ target, clientX }) => {
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(() => pointed(target, clientX));
  });
  document.addEventListener('pointerleave', clear);
}

function pointed(target: EventTarget | null, clientX: number): void {
  const svg = target instanceof Element ? target.closest('svg') : null;
  const line = svg === null ? undefined : linesOf(svg)[0];
  if (svg === null || line === undefined) return clear();
  const place = valueAt(line, clientX);
  if (place === null) return clear();
  for (const picture of document.querySelectorAll<HTMLElement>('.picture')) {
    const { top, bottom } = picture.getBoundingClientRect();
    const drawing = bottom < 0 || top > innerHeight ? null : shownIn(picture);
    const lines = drawing === null ? [] : linesOf(drawing).filter(({ said }) => said[1] === line.said[1]);
    if (drawing === null || lines.length === 0) unmark(picture);
    else mark(picture, drawing, lines, place);
  }
}

/** A drawing that changed says something else. */
export function forgetLines(svg: SVGSVGElement): void {
  known.delete(svg);
}

export function linesOf(svg: SVGSVGElement): readonly Line[] {
  const found = known.get(svg);
  if (found !== undefined) return found;
  const said = JSON.parse(svg.dataset['traces'] ?? '[]') as readonly Said[];
  const lines = [...svg.querySelectorAll<SVGGElement>('[data-trace]')].flatMap(group => {
    const path = group.querySelector('path');
    const trace = said[Number(group.dataset['trace'])];
    if (path === null || trace === undefined) return [];
    // Curves are cut where their points stand.
    const points = [...(path.getAttribute('d') ?? '').matchAll(/[ML,C\s]?[^MLCZ]+/gu)].flatMap(([piece]) => {
      const numbers = (piece.match(/-?[\d.]+(?:e-?\d+)?/gu) ?? []).map(Number);
      const [x, y] = numbers.slice(-2);
      return x === undefined || y === undefined ? [] : [[x, y] as const];
    });
    return [{ said: trace, path, points }];
  });
  known.set(svg, lines);
  return lines;
}

/** Null beside the line. */
function valueAt({ said, path, points }: Line, clientX: number): number | null {
  const matrix = path.getScreenCTM();
  const [first, last] = [points[0], points.at(-1)];
  if (matrix === null || first === undefined || last === undefined || said[4] === 0) return null;
  const x = (clientX - matrix.e) / matrix.a;
  if (x < Math.min(first[0], last[0]) - 2 || x > Math.max(first[0], last[0]) + 2) return null;
  return said[3] + said[4] * x;
}

/** Puts an upright line into a picture where a value stands on the axis across. @returns false where it has no place. */
export function standAt(
  picture: HTMLElement,
  svg: SVGSVGElement,
  { path, said, points }: Line,
  value: number,
  name: string,
): boolean {
  const matrix = path.getScreenCTM();
  const pixel = (value - said[3]) / said[4];
  const ends = points.map(([x]) => x);
  if (matrix === null || !(pixel >= Math.min(...ends) - 1 && pixel <= Math.max(...ends) + 1)) return false;
  const [own, box] = [picture.getBoundingClientRect(), svg.getBoundingClientRect()];
  const left = matrix.e + matrix.a * pixel - own.left;
  partOf(picture, name).style.cssText = `left:${left}px;top:${box.top - own.top}px;height:${box.height}px`;
  return true;
}

function mark(picture: HTMLElement, svg: SVGSVGElement, lines: readonly Line[], place: number): void {
  const [first] = lines;
  if (first === undefined || !lines.some(line => standAt(picture, svg, line, place, 'cursor'))) return unmark(picture);
  const readout = partOf(picture, 'readout');
  const [own, box] = [picture.getBoundingClientRect(), svg.getBoundingClientRect()];
  const values = lines.flatMap(line => {
    const pixel = heightAt(line.points, (place - line.said[3]) / line.said[4]);
    if (pixel === null) return [];
    const [y, , name] = line.said;
    const [word = '', unit = ''] = y.split(/,\s(?=[^,]*$)/u);
    const value = written(line.said[5] + line.said[6] * pixel, line.said[6]);
    return [`${name === '' ? word : name} ${value}${unit === '' ? '' : ` ${unit}`}`];
  });
  const [word = '', unit = ''] = first.said[1].split(/,\s(?=[^,]*$)/u);
  readout.textContent = `${word} ${written(place, first.said[4])} ${unit}: ${values.join(' · ')}`;
  readout.style.top = `${box.top - own.top + box.height}px`;
}

/** To what one pixel can tell. */
function written(value: number, slope: number): string {
  const digits = slope === 0 ? 3 : Math.max(0, Math.ceil(-Math.log10(Math.abs(slope))));
  return value.toFixed(Math.min(6, digits)).replace('-', '\u2212');
}

function heightAt(points: Line['points'], x: number): number | null {
  for (const [k, [x1, y1]] of points.entries()) {
    const before = points[k - 1];
    if (before === undefined) continue;
    const [x0, y0] = before;
    if (x >= Math.min(x0, x1) && x <= Math.max(x0, x1)) return x1 === x0 ? y1 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  }
  return null;
}

function partOf(picture: HTMLElement, name: string): HTMLElement {
  const found = picture.querySelector<HTMLElement>(`:scope > .${name}`);
  if (found !== null) return found;
  const part = document.createElement('div');
  part.className = name;
  part.setAttribute('aria-hidden', 'true');
  picture.append(part);
  return part;
}

function unmark(picture: Element): void {
  for (const part of picture.querySelectorAll(':scope > .cursor,:scope > .readout')) part.remove();
}

function clear(): void {
  for (const picture of document.querySelectorAll('.picture:has(> .cursor)')) unmark(picture);
}
