/** Lines for a car cell that say what a calibration found. */
import type { Result } from '../../runs/result.ts';
import { type Html, html } from '../page/html.ts';

export function copyLines({ lines, parts = {} }: Result): Html | null {
  if (lines === undefined) return null;
  const told = Object.entries(parts).map(
    ([kind, each]) => html`<details>
<summary>As a part by itself: ${WORDS[kind] ?? kind}</summary>
<p class="note">For a part cell here or in another notebook; or it says <code>kind: ${kind}</code>, <code>from:</code> and the name of this cell. How it hangs together with the rest of the car stays with the car.</p>
<pre tabindex="0"><code>${each.join('\n')}</code></pre>
</details>
`,
  );
  return html`<h4>Copy these lines</h4>
<p class="note">Into the car cell they say what was found, with how it hangs together; or a car cell says <code>from:</code> and the name of this cell.
Their ± and covariance are those of standard uncertainties (JCGM 100), about half as wide as the brackets above, which hold 19 of 20.</p>
<pre tabindex="0"><code>${lines.join('\n')}</code></pre>
${told}`;
}

const WORDS: { readonly [kind: string]: string } = {
  tyre: 'the tyre',
  unit: 'the drive unit',
  road_load: 'the road load',
  pack: 'the pack',
};
