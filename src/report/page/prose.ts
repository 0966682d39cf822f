/** The notebook's prose, fitted into the page: headings one level down, tables that scroll, no picture from outside. */
import type { Block, CellBlock } from '../../notebook/document/outcome.ts';

export interface Prose {
  readonly html: string;
  /** Level of the last heading in it, as it stands in the page; null without one. */
  readonly level: number | null;
}

/**
 * `html` is what the notebook made of Markdown, raw HTML already escaped. A first heading that says the `title` again is
 * left out.
 */
export function proseHtml(html: string, title: string | null): Prose {
  let level: number | null = null;
  const text = html
    .replace(/^\s*<h1>(.*?)<\/h1>\s*/s, (whole, words: string) =>
      title !== null && plain(words) === title.trim() ? '' : whole,
    )
    .replace(/<(\/?)h([1-6])>/g, (_, slash: string, digit: string) => {
      // The page has its own first and second level; `#` and `##` of the notebook are both its third.
      level = Math.max(3, Math.min(6, Number(digit) + 1));
      return `<${slash}h${level}>`;
    })
    .replaceAll('<table>', '<div class="scroll" role="group" aria-label="Table" tabindex="0"><table>')
    .replaceAll('</table>', '</table></div>')
    .replaceAll('<th>', '<th scope="col">')
    .replace(/<th style="/g, '<th scope="col" style="')
    .replace(/<img\b[^>]*>/g, picture);
  return { html: text, level };
}

/** Pictures that stand in the page itself stay; any other is named, not loaded. */
function picture(tag: string): string {
  if (/\ssrc="data:image\/(png|jpeg|gif|webp);/.test(tag)) return tag;
  const words = /\salt="([^"]*)"/.exec(tag)?.[1] ?? '';
  return `<span class="absent">[picture not in this file${words === '' ? '' : `: ${words}`}]</span>`;
}

/** Text of a heading without its tags and escapes. */
function plain(html: string): string {
  return html
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .trim();
}

/** Levels of the headings of cells: one below that of the prose before, where that is not lifted to the head of the page. @param title as for `proseHtml` of the first prose. */
export function levelsOf(blocks: readonly Block[], title: string): ReadonlyMap<CellBlock, number> {
  const levels = new Map<CellBlock, number>();
  let level = 2;
  let first: string | null = title;
  for (const block of blocks) {
    if (block.kind === 'cell') levels.set(block, Math.min(6, level + 1));
    else if (block.answers !== true) {
      level = proseHtml(block.html, first).level ?? level;
      first = null;
    }
  }
  return levels;
}
