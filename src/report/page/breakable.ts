/** A path in a narrow place: `medium.pack.window_low` may break after its dots and underscores, numbers and words do not. */
import { finished, type Html, html } from './html.ts';

export function breakable(text: string): Html {
  return html`${text.split(/(?<=[a-z\]][._])(?=[a-z])/iu).map((part, i) => (i === 0 ? html`${part}` : html`${finished('<wbr>')}${part}`))}`;
}
