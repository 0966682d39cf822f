/** Lines for a car cell that say what a calibration found. */
import type { Result } from '../../runs/result.ts';
import { type Html, html } from '../page/html.ts';

export function copyLines({ lines }: Result): Html | null {
  if (lines === undefined) return null;
  return html`<h4>Copy these lines</h4>
<p class="note">Into the car cell they say what was found, with how it hangs together; or a car cell says <code>from:</code> and the name of this cell.</p>
<pre tabindex="0"><code>${lines.join('\n')}</code></pre>
`;
}
