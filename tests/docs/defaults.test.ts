import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { generated } from './generated.ts';
import { defaultsPage } from './defaults-page.ts';

describe('what is generated', () => {
  it.each([...generated()])('%s is what the tables of fields say: run `npm run defaults`', (name, text) => {
    const written = readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
    expect(written === text, `${name} is stale: run \`npm run defaults\``).toBe(true);
  });
});

describe('docs/DEFAULTS.md', () => {
  const page = defaultsPage();

  it('has a source beside every default', () => {
    const rows = page.split('\n').filter(line => /^\| `[^`]*` \|/u.test(line));
    expect(rows.length).toBeGreaterThan(150);
    for (const row of rows.filter(line => line.split('|').length === 6)) {
      expect(row.split('|')[4]?.trim().length, row).toBeGreaterThan(3);
    }
  });
});
