/** What is asked about a page: the page itself, and the same with a mass that is bigger by a thousand-millionth. */
import type { Order } from './examine.ts';
import { isLines, type Page, type PageCell, written } from './page.ts';

const STUDIES = /^yaml (?:sweep|compare|spread|rank|seek)$/;

export function orderOf(page: Page, report: boolean): Order {
  const cells = page.cells.filter(({ head }) => !STUDIES.test(head)).map(heavier);
  const moved = cells.some((cell, k) => cell !== page.cells[k]) ? written({ ...page, cells, prose: [] }) : '';
  return { text: written(page), moved, report };
}

function heavier(cell: PageCell): PageCell {
  if (cell.head !== 'yaml car' || isLines(cell.body)) return cell;
  const body = cell.body.map(([key, value]): (typeof cell.body)[number] => {
    const kilograms = key === 'mass' && typeof value === 'string' ? /^([\d.]+) kg$/.exec(value)?.[1] : undefined;
    return [key, kilograms === undefined ? value : `${Number(kilograms) * (1 + 1e-9)} kg`];
  });
  return { ...cell, body };
}

/** The same for a notebook that is only there as text. */
export function moved(text: string): string {
  return text.replaceAll(
    /^mass: ([\d.]+) kg$/gm,
    (_, kilograms: string) => `mass: ${Number(kilograms) * (1 + 1e-9)} kg`,
  );
}
