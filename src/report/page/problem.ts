/** A problem of the notebook, shown where it is. */
import type { ProblemData } from '../../notebook/document/problem.ts';
import { type Html, html } from './html.ts';

/** Longest piece of a source line that is shown. */
const SHOWN = 160;

/** `file:line:column`. */
export function place(problem: ProblemData): string {
  return `${problem.file}:${problem.line}:${problem.column}`;
}

/** The problem with its place, what was expected, and the line with carets under the wrong part. */
export function problemBox(problem: ProblemData): Html {
  const marked = carets(problem);
  return html`<div class="problem">
<p>${problemWords(problem)}</p>
${
  problem.source === ''
    ? null
    : html`<pre><code>${marked.source}
${marked.carets}</code></pre>`
}
<p class="place">${place(problem)}</p>
</div>
`;
}

/** What is wrong, and what would cure it. */
export function problemWords({ path, message, expected, nearest }: ProblemData): Html {
  return html`<strong>${path === '' ? null : html`<code>${path}</code>: `}${message}.</strong>${expected === '' ? null : html` Expected: ${expected}.`}${nearest === '' ? null : html` Did you mean <code>${nearest}</code>?`}`;
}

/** The source line, cut to what can be shown around the wrong part, and the line of carets for it. */
function carets(problem: ProblemData): { readonly source: string; readonly carets: string } {
  const line = problem.source.replaceAll('\t', ' ');
  const start = problem.column > SHOWN / 2 && line.length > SHOWN ? problem.column - 1 - SHOWN / 4 : 0;
  const source = line.slice(start, start + SHOWN);
  const at = problem.column - 1 - start;
  if (at < 0 || at > source.length) return { source, carets: '' };
  return { source, carets: ' '.repeat(at) + '^'.repeat(Math.max(1, Math.min(problem.length, source.length - at))) };
}
