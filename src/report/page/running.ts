/** What a page runs, and the policy that lets it run that and nothing else: every script is known by its hash. */
import { createHash } from 'node:crypto';
import { finished, type Html, html } from './html.ts';
import type { Running } from './shell.ts';
import { STYLE } from './style.ts';

/** One thing that a page can do by script. */
export interface Able {
  /** The script, as text of JavaScript. */
  readonly script: string;
  /** What it reads in the page: elements that stand before all scripts. */
  readonly data?: Html;
  /** Looks that go with it. */
  readonly style?: string;
  /** Directives of the policy beside the hash of the script. */
  readonly allowed?: readonly string[];
}

/** @returns null for a page that runs nothing. */
export function runningOf(able: readonly Able[]): Running | null {
  if (able.length === 0) return null;
  const style = able.map(each => each.style ?? '').join('');
  return {
    policy: [
      "default-src 'none'",
      `script-src ${able.map(({ script }) => `'${hashOf(script)}'`).join(' ')}`,
      ...able.flatMap(({ allowed = [] }) => allowed),
      `style-src-elem '${hashOf(STYLE + style)}'`,
      // Bars and bands of the answer say their widths and colours themselves.
      "style-src-attr 'unsafe-inline'",
      'img-src data:',
      "base-uri 'none'",
      "form-action 'none'",
    ].join('; '),
    style,
    scripts: html`${able.map(({ data }) => data ?? null)}${able.map(
      ({ script }) => html`<script>${finished(script)}</script>
`,
    )}`,
  };
}

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

/** Plain data for a script. In JSON a bracket may be written by its number: then nothing in it ends the element. */
export function dataElement(id: string, data: unknown): Html {
  const json = JSON.stringify(data, (_, value: unknown) => (value instanceof Float64Array ? [...value] : value));
  return html`<script type="application/json" id="${id}">${finished(json.replaceAll('<', '\\u003c'))}</script>
`;
}
