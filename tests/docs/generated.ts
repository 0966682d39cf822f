/** What is written from the tables of fields: path below the root of the project, and text. `npm run defaults` writes them. */
import { defaultsPage } from './defaults-page.ts';
import { languagePage } from './language-page.ts';
import { specTypes } from './spec-types.ts';
import { summaryTypes } from './summary-types.ts';
import { usualSizes } from './usual-sizes.ts';

export function generated(): ReadonlyMap<string, string> {
  return new Map([
    ['docs/DEFAULTS.md', defaultsPage()],
    ['docs/LANGUAGE.md', languagePage()],
    ['src/units/usual-sizes.ts', usualSizes()],
    ...specTypes(),
    ...summaryTypes(),
  ]);
}
