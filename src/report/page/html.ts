/** HTML that can not be broken by what is put into it: text is escaped unless it was made here. */

/** A piece of finished HTML. */
export interface Html {
  readonly html: string;
}

/** What may stand in a template: text is escaped, finished HTML is not, lists are joined, null leaves nothing. */
export type Part = string | number | Html | null | readonly Part[];

/** Tagged template: html`<p>${text}</p>`. */
export function html(texts: TemplateStringsArray, ...parts: readonly Part[]): Html {
  let all = texts[0] ?? '';
  parts.forEach((part, i) => {
    all += flat(part) + (texts[i + 1] ?? '');
  });
  return { html: all };
}

/** HTML made elsewhere that is known to be safe. */
export function finished(text: string): Html {
  return { html: text };
}

/** Text made safe for content and for quoted attributes. Characters that HTML forbids are shown as a box. */
export function escape(text: string): string {
  return text
    .replace(FORBIDDEN, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/** Control characters other than tab and line ends, lone surrogates, and the two that are no characters. */
const FORBIDDEN = /(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu;

function flat(part: Part): string {
  if (part === null) return '';
  if (typeof part === 'string') return escape(part);
  if (typeof part === 'number') return String(part);
  if ('html' in part) return part.html;
  return part.map(flat).join('');
}
