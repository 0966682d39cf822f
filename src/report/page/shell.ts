/** What stands around every page: it loads nothing, runs nothing, and carries the mark by which it is known as ours. */
import { finished, type Html, html } from './html.ts';
import { STYLE } from './style.ts';

/** Styles stand in the page, pictures too. A page that runs something says so by hash: `live.ts`. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** What a page has that runs something. */
export interface Running {
  readonly policy: string;
  readonly style: string;
  readonly scripts: Html;
}

/** @param kind of the page, for its style: '' for a report. */
export function pageOf(title: string, mark: Html, kind: string, body: Html, running: Running | null = null): string {
  return html`${finished('<!DOCTYPE html>')}
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${finished(running?.policy ?? POLICY)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${mark}
<title>${title}</title>
<style>${finished(STYLE + (running?.style ?? ''))}</style>
</head>
<body${kind === '' ? null : html` class="${kind}"`}>
${body}${running?.scripts ?? null}</body>
</html>
`.html;
}
