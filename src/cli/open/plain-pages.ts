/** Pages that are no reports: the list of a folder's notebooks, and what is wrong with one that can not be read. */
import { resolve } from 'node:path';
import { reportMark } from '../../report/mark.ts';
import { html } from '../../report/page/html.ts';
import { OPEN_DATA, type OpenData } from '../../report/page/open-data.ts';
import { type Able, dataElement, runningOf } from '../../report/page/running.ts';
import { pageOf } from '../../report/page/shell.ts';
import { UnreadableFile } from '../../notebook/files/unreadable-file.ts';
import { type FoundNotebook, notebooksIn } from '../folder-notebooks.ts';
import { builtText } from '../page-scripts.ts';
import { Editions, type ServedPage } from './page.ts';

/** What makes a page follow its source. */
export function openAble(data: OpenData): Able {
  return {
    script: builtText('open-page.js'),
    data: dataElement(OPEN_DATA, data),
    allowed: ["connect-src 'self'"],
    style: OPEN_STYLE,
  };
}

const OPEN_STYLE = `
#open-state{position:fixed;left:.6rem;bottom:.6rem;margin:0;padding:.2rem .6rem;font-size:.8rem;background:#1c2126;color:#fff;border-radius:3px;z-index:3;opacity:.92}
#open-state:empty{display:none}
#open-trouble{position:sticky;top:0;z-index:3;white-space:pre-wrap}
[data-waits]{opacity:.55}
@media print{#open-state,#open-trouble{display:none}}
`;

/** In the place of a page that could not be made yet. */
export function troublePage(file: string, trouble: string, able: Able): string {
  const body = html`<header>
<p class="maker">axlewatt</p>
<h1>${file}</h1>
</header>
<main>
<div class="problem"><p>${trouble}</p><p>This page follows as soon as the file is mended.</p></div>
</main>
`;
  return pageOf(file, reportMark([]), '', body, runningOf([able]));
}

/** The notebooks of a folder, as a page. @param found is told of them whenever they are looked for. */
export function createIndexPage(folder: string, found: (notebooks: readonly FoundNotebook[]) => void): ServedPage {
  const editions = new Editions();
  const made = (): string => {
    const edition = editions.next();
    try {
      const notebooks = notebooksIn(folder);
      found(notebooks);
      editions.tell({ edition, trouble: '' });
      return indexPage(folder, notebooks, openAble({ edition, late: [] }));
    } catch (error) {
      if (!(error instanceof UnreadableFile)) throw error;
      editions.tell({ edition, trouble: error.message });
      return troublePage(folder, error.message, openAble({ edition, late: [] }));
    }
  };
  let page: string | null = null;
  return {
    html: () => Promise.resolve((page ??= made())),
    news: () => editions.news,
    listen: told => editions.listen(told),
    sources: () => [resolve(folder)],
    changed: () => void (page = made()),
    close: () => {},
  };
}

function indexPage(folder: string, notebooks: readonly FoundNotebook[], able: Able): string {
  const body = html`<header>
<p class="maker">axlewatt · ${folder}</p>
<h1>Notebooks</h1>
</header>
<main>
${
  notebooks.length === 0
    ? html`<p>No notebook is in this folder: one is a file NAME.md with a cell in it. A first one is written by <code>axlewatt new NAME.md</code>; it is listed here at once.</p>
`
    : html`<ul class="notebooks">
${notebooks.map(
  ({ name, title }) => html`<li><a href="/${encodeURIComponent(name)}">${title}</a> <small>${name}</small></li>
`,
)}</ul>
`
}</main>
`;
  return pageOf(`Notebooks in ${folder}`, reportMark([]), '', body, runningOf([able]));
}
