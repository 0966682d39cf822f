/** What the build made for pages to run. */
import { readFileSync } from 'node:fs';
import type { Samples } from '../notebook/samples.ts';
import type { LiveParts } from '../report/page/live.ts';
import type { Able } from '../report/page/running.ts';
import type { Ran } from './notebooks.ts';

const texts = new Map<string, string>();

/** Text of a file beside the command. */
export function builtText(name: string): string {
  const found = texts.get(name) ?? readFileSync(new URL(`../${name}`, import.meta.url), 'utf8');
  texts.set(name, found);
  return found;
}

/** What a page with knobs is run again from; null for one without. */
export function liveParts({ outcome, from }: Ran, samples: Samples): LiveParts | null {
  if (from === undefined || outcome === null) return null;
  if (!outcome.blocks.some(block => block.kind === 'cell' && block.knobs !== undefined)) return null;
  return {
    ...from,
    samples,
    engine: builtText('live-engine.txt'),
    script: builtText('live-page.js'),
    notices: builtText('live-notices.txt'),
  };
}

/** Pictures are saved, and say their values. */
export function picturesAble(): Able {
  return { script: builtText('pictures-page.js') };
}
