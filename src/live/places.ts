/// <reference lib="dom" />
/** The places of a page that are put anew, and what stood there at first. */
import type { Parts } from './messages.ts';

export interface Places {
  /** Ids of the pictures that are seen. */
  seen(): readonly string[];
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
    seen: () => [...seen],
    put({ elements, pictures, quotes: asked, late, core }) {
      for (const [id, html] of elements) putElement(id, html, core);
      for (const { id, svg, caption } of pictures) {
        const figure = document.getElementById(id);
        const section = figure?.closest<HTMLElement>('section.cell') ?? null;
        if (figure === null) continue;
        if (section !== null) keep(section);
        const shown = [...figure.querySelectorAll<HTMLElement>(':scope > [role=img]')].find(
          each => each.offsetParent !== null,
        );
        if (shown !== undefined) shown.innerHTML = svg;
        const words = figure.querySelector('figcaption');
        if (words !== null) words.innerHTML = caption;
        figure.dataset['now'] = '';
      }
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
