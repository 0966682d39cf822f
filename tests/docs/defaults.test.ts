import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { defaultsPage } from './defaults-page.ts';

describe('docs/DEFAULTS.md', () => {
  const page = defaultsPage();

  it('is what the tables of fields say: run `npm run defaults`', () => {
    const written = readFileSync(new URL('../../docs/DEFAULTS.md', import.meta.url), 'utf8');
    expect(written === page, 'docs/DEFAULTS.md is stale: run `npm run defaults`').toBe(true);
  });

  it('has a source beside every default', () => {
    const rows = page.split('\n').filter(line => /^\| `[^`]*` \|/u.test(line));
    expect(rows.length).toBeGreaterThan(150);
    for (const row of rows.filter(line => line.split('|').length === 6)) {
      expect(row.split('|')[4]?.trim().length, row).toBeGreaterThan(3);
    }
  });
});
