import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { examine } from './examine.ts';
import { Random } from './random.ts';
import { sanePage } from './sane-page.ts';
import { moved, orderOf } from './order.ts';
import { written } from './page.ts';
import { sillyPage } from './silly-page.ts';
import { smaller } from './shrink.ts';

const folder = fileURLToPath(new URL('./kept/', import.meta.url));

describe('what was found once', () => {
  it.each(readdirSync(folder))('is not wrong any more: %s', async name => {
    const text = readFileSync(`${folder}${name}`, 'utf8');
    const findings = await examine({ text, moved: moved(text), report: true });
    expect(findings.filter(({ kind }) => kind !== 'slow' && kind !== 'refused')).toEqual([]);
  });
});

describe('the generator', () => {
  it('writes the same notebook for the same seed, and another one for another', () => {
    for (const make of [sillyPage, sanePage]) {
      expect(written(make(new Random(5)))).toBe(written(make(new Random(5))));
      expect(written(make(new Random(5)))).not.toBe(written(make(new Random(6))));
    }
  });

  it('writes a notebook for any seed', () => {
    for (let seed = 700_000; seed < 700_300; seed++) expect(written(sillyPage(new Random(seed)))).not.toBe('');
  });

  it('finds what is wrong', async () => {
    const text = '```yaml launch l\ncar: nothing\n```\n';
    const findings = await examine({ text, moved: '', report: true });
    expect(findings.map(({ kind }) => kind)).toEqual(['refused']);
  });

  // The others take long.
  it.each(['launch', 'charge', 'sheet'] as const)(
    'asks cars a workshop might build a question that is understood: %s',
    async question => {
      const page = sanePage(new Random(1), question);
      const findings = await examine({ ...orderOf(page, false), moved: '' });
      expect(findings.filter(({ kind }) => kind === 'refused')).toEqual([]);
    },
  );

  it('makes pages smaller in every way, down to nothing', () => {
    let page = sillyPage(new Random(3));
    for (let next = smaller(page)[0]; next !== undefined; next = smaller(page)[0]) {
      expect(written(next).length).toBeLessThan(written(page).length);
      page = next;
    }
    expect(page.cells).toEqual([]);
  });
});
