/** What stands around every page: it loads nothing, runs nothing, and carries the mark by which it is known as ours. */
import { finished, type Html, html } from './html.ts';
import { STYLE } from './style.ts';

/** Styles stand in the page, pictures too. Scripts of `page/` would be allowed by their hash here. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** @param kind of the page, for its style: '' for a report. */
export function pageOf(title: string, mark: Html, kind: string, body: Html): string {
  return html`${finished('<!DOCTYPE html>')}
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${finished(POLICY)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${mark}
<title>${title}</title>
<style>${finished(STYLE)}</style>
</head>
<body${kind === '' ? null : html` class="${kind}"`}>
${body}</body>
</html>
`.html;
}
