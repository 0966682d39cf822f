/** The documents: what they show runs through the built command, what they link to is there. Needs `npm run build`. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const docs = fileURLToPath(new URL('../../docs/', import.meta.url));
const pages = readdirSync(docs, { recursive: true, encoding: 'utf8' }).filter(
  name => name.endsWith('.md') && !name.endsWith('.api.md'),
);
const notebooks = pages
  .filter(name => name.startsWith('questions'))
  .map(name => [name, readFileSync(join(docs, name), 'utf8')] as const)
  .filter(([, text]) => text.includes('```yaml'));

describe('a document', () => {
  it.each(pages)('%s links to what is there', name => {
    const text = readFileSync(join(docs, name), 'utf8');
    for (const [, link = ''] of text.matchAll(/\]\(([^)#:\s]+)\)/gu))
      expect(existsSync(join(docs, dirname(name), link)), link).toBe(true);
  });

  it.each(pages.filter(name => name !== 'README.md'))('%s stands in the list of them', name => {
    expect(readFileSync(join(docs, 'README.md'), 'utf8')).toContain(`](${name.replaceAll('\\', '/')})`);
  });

  it('answers six questions with notebooks', () => {
    expect(notebooks).toHaveLength(6);
  });

  it.each(notebooks)(
    '%s runs as it stands',
    (_, text) => {
      const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0'], 100);
      expect(called.err).toBe('');
      expect(called.code).toBe(0);
    },
    120_000,
  );
});
