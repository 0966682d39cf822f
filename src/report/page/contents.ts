/** The list of contents: beside the page where there is room, folded at its head where there is none. */
import { type Html, finished, html } from './html.ts';

export interface Entry {
  readonly id: string;
  /** As HTML: headings of prose carry marks of their own. */
  readonly text: Html;
  /** A part of the page, a heading of the notebook, or a cell. */
  readonly rank: 'part' | 'heading' | 'cell';
}

export function contentsOf(entries: readonly Entry[]): Html {
  return html`<nav class="contents" aria-label="Contents"><details><summary>Contents</summary><ol>
${entries.map(
  ({ id, text, rank }) => html`<li class="of-${rank}"><a href="#${id}">${text}</a></li>
`,
)}</ol></details></nav>
`;
}

/** Gives the headings of a piece of prose ids that no other has. @param first number of the first one. */
export function withIds(prose: string, first: number): { readonly html: string; readonly entries: readonly Entry[] } {
  const entries: Entry[] = [];
  const text = prose.replace(/<h(?<level>[3-6])>(?<words>[\s\S]*?)<\/h\k<level>>/gu, (...found) => {
    const { level = '', words = '' } = found.at(-1) as { readonly level?: string; readonly words?: string };
    const id = `part-${first + entries.length}`;
    // A link within a link is none.
    entries.push({ id, text: finished(words.replace(/<\/?(?:a|output)\b[^>]*>/gu, '')), rank: 'heading' });
    return `<h${level} id="${id}">${words}</h${level}>`;
  });
  return { html: text, entries };
}
