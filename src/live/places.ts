/// <reference lib="dom" />
/** The places of a page that are put anew, and what stood there at first. */
import type { Change } from './changes.ts';
import type { Parts, Redrawn } from './messages.ts';
import { forgetLines } from './pointer.ts';

export interface Places {
  /** The pictures that are seen, and which drawing of a worker stands there; 0 for none of its. */
  seen(slim: boolean): ReadonlyMap<string, number>;
  /** All pictures, none of them of a worker. */
  all(): ReadonlyMap<string, number>;
  put(parts: Parts): void;
  /** Puts everything back as the notebook has it. */
  restore(): void;
}

/** The questions of a card follow when its control rests: until then they stay as they were, and pale. */
function keepAnswers(old: Element, by: Element): void {
  const [before, now] = [old.querySelector('dl'), by.querySelector('dl')];
  if (before === null || now === null) return;
  before.dataset['late'] = '';
  now.replaceWith(before);
}

/** An element of no class has no attribute for it. */
function classed(element: HTMLElement, name: string): void {
  if (name === '') element.removeAttribute('class');
  else element.className = name;
}

/** Where a picture stands as it is seen. */
function placeOf(figure: HTMLElement | null, slim: boolean): HTMLElement | null {
  return figure?.querySelector<HTMLElement>(slim ? ':scope > .slim' : ':scope > .wide') ?? null;
}

function change(place: HTMLElement, changes: readonly Change[]): void {
  const elements = place.querySelectorAll('*');
  for (const [k, attributes, inside] of changes) {
    const element = elements[k];
    if (element === undefined) continue;
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    if (inside !== null) element.innerHTML = inside;
  }
  if (place.firstElementChild instanceof SVGSVGElement) forgetLines(place.firstElementChild);
}

export function createPlaces(): Places {
  /** Elements as they were, by id. */
  const first = new Map<string, Node>();
  const quotes = [...document.querySelectorAll<HTMLElement>('.prose output')];
  const firstQuotes = quotes.map(({ textContent, className }) => ({ textContent, className }));
  const seen = new Set<string>();
  const watch = new IntersectionObserver(entries => {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting) seen.add(target.id);
      else seen.delete(target.id);
    }
  });
  const watchIn = (root: ParentNode): void => {
    for (const picture of root.querySelectorAll('.picture')) watch.observe(picture);
  };
  const keep = (element: HTMLElement): void => {
    const { id } = element;
    if (!first.has(id)) first.set(id, element.cloneNode(true));
  };
  const replace = (old: HTMLElement, by: Node): void => {
    const opened = [...old.querySelectorAll('details')].map(({ open }) => open);
    for (const picture of old.querySelectorAll('.picture')) {
      watch.unobserve(picture);
      seen.delete(picture.id);
    }
    if (by instanceof Element)
      for (const [k, details] of [...by.querySelectorAll('details')].entries())
        details.open = opened[k] ?? details.open;
    old.replaceWith(by);
    if (by instanceof Element) watchIn(by);
  };
  const putElement = (id: string, html: string, core: boolean): void => {
    const old = document.getElementById(id);
    if (old === null) return;
    keep(old);
    const template = document.createElement('template');
    template.innerHTML = html;
    const by = template.content.firstElementChild;
    if (by === null) return;
    if (core) keepAnswers(old, by);
    replace(old, by);
  };
  /** Drawings of a worker, by their elements. */
  const drawings = new WeakMap<Node, number>();
  const putPicture = ({ id, drawing, svg, caption }: Redrawn, slim: boolean): void => {
    const figure = document.getElementById(id);
    const place = placeOf(figure, slim);
    if (figure === null || place === null) return;
    const section = figure.closest<HTMLElement>('section.cell');
    if (section !== null) keep(section);
    if (typeof svg === 'string') place.innerHTML = svg;
    else if (drawings.get(place.firstChild ?? document) === svg.over) change(place, svg.changes);
    else return;
    if (place.firstChild !== null) drawings.set(place.firstChild, drawing);
    const words = figure.querySelector('figcaption');
    if (words !== null && captions.get(words) !== caption) {
      words.innerHTML = caption;
      captions.set(words, caption);
    }
    figure.dataset['now'] = '';
  };
  const captions = new WeakMap<Element, string>();
  const markLate = (ids: readonly string[]): void => {
    const late = new Set(ids);
    for (const element of document.querySelectorAll<HTMLElement>('[data-late]'))
      if (!late.has(element.id)) delete element.dataset['late'];
    for (const id of late) {
      const element = document.getElementById(id);
      if (element === null) continue;
      keep(element);
      element.dataset['late'] = '';
    }
  };
  watchIn(document);
  return {
    all: () => new Map([...document.querySelectorAll('.picture')].map(({ id }) => [id, 0])),
    seen: slim =>
      new Map(
        [...seen].map(id => [
          id,
          drawings.get(placeOf(document.getElementById(id), slim)?.firstChild ?? document) ?? 0,
        ]),
      ),
    put({ elements, pictures, slim, quotes: asked, late, core }) {
      for (const [id, html] of elements) putElement(id, html, core);
      for (const picture of pictures) putPicture(picture, slim);
      for (const { place, text: said, wrong } of asked) {
        const [quote, own] = [quotes[place], firstQuotes[place]];
        if (quote === undefined || own === undefined) continue;
        const text = said ?? own.textContent;
        if (quote.textContent === text) continue;
        quote.textContent = text;
        const away = text !== own.textContent;
        classed(quote, wrong ? 'problem' : away ? 'turned' : own.className);
        if (away) quote.title = `in the notebook: ${own.textContent ?? ''}`;
        else quote.removeAttribute('title');
      }
      markLate(late);
    },
    restore() {
      for (const [id, node] of first) {
        const now = document.getElementById(id);
        if (now !== null) replace(now, node.cloneNode(true));
      }
      for (const [k, quote] of quotes.entries()) {
        quote.textContent = firstQuotes[k]?.textContent ?? '';
        classed(quote, firstQuotes[k]?.className ?? '');
        quote.removeAttribute('title');
      }
      first.clear();
      markLate([]);
    },
  };
}
