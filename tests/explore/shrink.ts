/** Makes a page smaller as long as the same thing is wrong with it. */
import { type Entries, isLines, isList, type Page, type PageCell, type Value } from './page.ts';

/** Every page that is a little smaller: without a cell, without an entry, with rounder numbers; the biggest steps first. */
export function smaller(page: Page): Page[] {
  const pages: Page[] = [];
  if (page.prose.length > 0) pages.push({ ...page, prose: [] });
  for (const [k] of page.cells.entries()) pages.push({ ...page, cells: page.cells.filter((_, i) => i !== k) });
  for (const [k, cell] of page.cells.entries()) {
    for (const body of smallerBody(cell)) {
      pages.push({ ...page, cells: page.cells.map((each, i) => (i === k ? { ...cell, body } : each)) });
    }
  }
  return pages;
}

function smallerBody({ body }: PageCell): PageCell['body'][] {
  return isLines(body) ? body.map((_, k) => body.filter((_line, i) => i !== k)) : smallerEntries(body);
}

function smallerEntries(entries: Entries): Entries[] {
  const without = entries.map((_, k) => entries.filter((_entry, i) => i !== k));
  const within = entries.flatMap(([key, value], k) =>
    smallerValues(value).map(other => entries.map((entry, i): Entries[number] => (i === k ? [key, other] : entry))),
  );
  return [...without, ...within];
}

function smallerValues(value: Value): Value[] {
  if (typeof value === 'string') return rounder(value);
  if (!isList(value)) return smallerEntries(value);
  return [
    ...(value.length > 1 ? value.map((_, k) => value.filter((_item, i) => i !== k)) : []),
    ...value.flatMap((item, k) => smallerEntries(item).map(other => value.map((each, i) => (i === k ? other : each)))),
  ];
}

/** A number with one and with two digits. */
function rounder(text: string): string[] {
  const number = /^(-?[\d.]+(?:e[-+]?\d+)?)( .*)?$/.exec(text);
  if (number === null) return [];
  const [, digits = '', unit = ''] = number;
  const rounded = [1, 2].map(precision => `${Number(Number(digits).toPrecision(precision))}${unit}`);
  return rounded.filter(other => other !== text && other.length < text.length);
}

/**
 * @param still whether the same is wrong with another page
 * @param tries how many pages are looked at, at most
 */
export async function shrunk(page: Page, still: (page: Page) => Promise<boolean>, tries: number): Promise<Page> {
  let left = tries;
  let found = page;
  for (let moved = true; moved && left > 0; ) {
    moved = false;
    for (const candidate of smaller(found)) {
      if (left <= 0) break;
      left -= 1;
      if (!(await still(candidate))) continue;
      found = candidate;
      moved = true;
      break;
    }
  }
  return found;
}
