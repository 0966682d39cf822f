/// <reference lib="dom" />
/** Lays a newer page over the one that is seen: what is the same stays, element for element, with all that a reader did to it. */

/** Elements whose children are looked at one by one. */
const OPENED = 'body,main,.workings,.workings>.fold,.answer,.cards';

/**
 * @param seen the page as it is seen.
 * @param sent the same as it was sent.
 * @param next the newer one as it is sent.
 * @param late ids in `next` of sections that are not there yet: what stood there is kept, pale.
 * @returns the newer page as it is now thought to have been sent.
 */
export function laidOver(
  seen: HTMLElement,
  sent: HTMLElement,
  next: HTMLElement,
  late: readonly string[],
): HTMLElement {
  for (const id of late) keepBefore(sent, next, id);
  keepQuotes(sent, next, late.length > 0);
  keepDrawings(sent, next);
  // What scripts have put at the end of the page is not theirs to be laid over.
  lay(seen, sent, next);
  const waiting = new Set(late.flatMap(id => [id, `${id}-card`]));
  for (const element of seen.querySelectorAll<HTMLElement>('section[data-waits],.card[data-waits]'))
    if (!waiting.has(element.id)) delete element.dataset['waits'];
  for (const id of waiting) {
    const element = seen.ownerDocument.getElementById(id);
    if (element !== null) element.dataset['waits'] = '';
  }
  return next;
}

function lay(seen: Element, sent: Element, next: Element): void {
  const [before, after] = [[...sent.children], [...next.children]];
  const shown = [...seen.children].slice(0, before.length);
  const same = (a: Element | undefined, b: Element | undefined): boolean =>
    a !== undefined && b !== undefined && a.isEqualNode(b);
  let head = 0;
  while (head < before.length && same(before[head], after[head])) head += 1;
  let tail = 0;
  while (
    tail < before.length - head &&
    tail < after.length - head &&
    same(before[before.length - 1 - tail], after[after.length - 1 - tail])
  )
    tail += 1;
  const [old, fresh] = [before.slice(head, before.length - tail), after.slice(head, after.length - tail)];
  const stand = shown[before.length - tail] ?? seen.children[before.length] ?? null;
  for (const [k, element] of fresh.entries()) {
    const [was, is] = [old[k], shown[head + k]];
    if (was === undefined || is === undefined) seen.insertBefore(element.cloneNode(true), stand);
    else if (same(was, element)) continue;
    else if (was.localName === element.localName && was.matches(OPENED) && element.matches(OPENED)) {
      for (const { name, value } of element.attributes) if (name !== 'open') is.setAttribute(name, value);
      lay(is, was, element);
    } else is.replaceWith(element.cloneNode(true));
  }
  for (const [k] of old.entries()) if (k >= fresh.length) shown[head + k]?.remove();
}

/** What stood of a cell, in the place of what is not there yet. */
function keepBefore(sent: HTMLElement, next: HTMLElement, id: string): void {
  const section = next.querySelector(`#${CSS.escape(id)}`);
  const name = section?.getAttribute('data-name') ?? '';
  const before = name === '' ? null : sent.querySelector(`section[data-name="${CSS.escape(name)}"]`);
  if (section === null || before === null) return;
  const kept = before.cloneNode(true) as Element;
  kept.id = id;
  section.replaceWith(kept);
  const card = sent.querySelector(`.card[data-name="${CSS.escape(name)}"]`);
  const cards = next.querySelector('.cards');
  if (card === null || cards === null || cards.querySelector(`[data-name="${CSS.escape(name)}"]`) !== null) return;
  const copy = card.cloneNode(true) as Element;
  copy.id = `${id}-card`;
  const place = [...(card.parentElement?.children ?? [])].indexOf(card);
  cards.insertBefore(copy, cards.children[place] ?? null);
}

/** Pictures that are not drawn yet stay as they were. */
function keepDrawings(sent: HTMLElement, next: HTMLElement): void {
  for (const place of next.querySelectorAll('.picture > [role=img]:empty')) {
    const id = place.parentElement?.id ?? '';
    const before = sent.querySelector(`#${CSS.escape(id)} > .${place.className}`);
    if (before === null) continue;
    place.replaceChildren(...before.cloneNode(true).childNodes);
    place.setAttribute('data-waits', '');
  }
}

/** Quoted figures that wait keep what they said. */
function keepQuotes(sent: HTMLElement, next: HTMLElement, some: boolean): void {
  const [before, after] = [[...sent.querySelectorAll('.prose output')], [...next.querySelectorAll('.prose output')]];
  if (!some || before.length !== after.length) return;
  for (const [k, quote] of after.entries()) {
    const was = before[k];
    if (quote.className === 'problem' && was !== undefined) quote.replaceWith(was.cloneNode(true));
  }
}
