/// <reference lib="dom" />
/** Where a reader is in a page, in words that hold in a newer one: what is seen first, what is open, where the keyboard is. */

export interface Place {
  /** What stands at the head of the window, and how far below it; null at the head of the page. */
  readonly seen: { readonly key: string; readonly top: number } | null;
  /** Open or closed, by key. */
  readonly folds: readonly (readonly [key: string, open: boolean])[];
  /** Id of what has the keyboard; '' for nothing. */
  readonly focus: string;
}

/** What a reader holds on to. */
const MARKS = 'main :is(h2,h3,h4,h5,h6,p,figure,table,.card,li,pre):not(aside *)';

export function placeIn(page: Document): Place {
  const marks = [...page.querySelectorAll<HTMLElement>(MARKS)];
  const first =
    scrollY < 8 ? undefined : marks.find(mark => mark.getBoundingClientRect().bottom > 0 && mark.offsetParent !== null);
  const keys = keysOf(marks);
  return {
    seen: first === undefined ? null : { key: keys.get(first) ?? '', top: first.getBoundingClientRect().top },
    folds: foldsOf(page).map(([key, fold]) => [key, fold.open] as const),
    focus: page.activeElement?.id ?? '',
  };
}

export function putPlace(page: Document, { seen, folds, focus }: Place): void {
  const open = new Map(folds);
  for (const [key, fold] of foldsOf(page)) fold.open = open.get(key) ?? fold.open;
  if (seen !== null) {
    const marks = [...page.querySelectorAll<HTMLElement>(MARKS)];
    const found = [...keysOf(marks)].find(([, key]) => key === seen.key)?.[0];
    if (found !== undefined) scrollBy({ top: found.getBoundingClientRect().top - seen.top, behavior: 'instant' });
  }
  if (focus !== '' && page.activeElement?.id !== focus) page.getElementById(focus)?.focus({ preventScroll: true });
}

function foldsOf(page: Document): readonly (readonly [string, HTMLDetailsElement])[] {
  const folds = [...page.querySelectorAll('details')];
  const keys = keysOf(folds);
  return folds.map(fold => [keys.get(fold) ?? '', fold] as const);
}

/** Of elements: the cell they stand in by its name, and which of their kind they are there. */
function keysOf<E extends Element>(elements: readonly E[]): ReadonlyMap<E, string> {
  const counts = new Map<string, number>();
  return new Map(
    elements.map(element => {
      const within = element.closest('section.cell') ?? element.closest('section');
      const name = `${within?.querySelector('h2,h3,h4,h5,h6')?.textContent ?? ''}/${element.localName}.${element.className}`;
      const count = (counts.get(name) ?? 0) + 1;
      counts.set(name, count);
      return [element, `${name}/${count}`] as const;
    }),
  );
}
