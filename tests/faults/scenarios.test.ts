/** Every example that ships, through the built command: it runs to its end, with the samples that the command takes. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(name =>
  statSync(folder + name).isFile(),
);
const texts = new Map(names.map(name => [name.replaceAll('\\', '/'), readFileSync(folder + name, 'utf8')]));

/** The notebook first, then what it may read. */
function withItsFiles(notebook: string): Record<string, string> {
  const beside = [...texts].filter(([name]) => !name.endsWith('.md'));
  return Object.fromEntries([[notebook, texts.get(notebook) ?? ''], ...beside]);
}

interface Exported {
  readonly blocks: readonly { readonly name?: string; readonly result?: { intervals?: { samples: number } } }[];
}

/** The others run long enough with a few samples: each kind of run and study makes its jobs all the same. */
const WITH_ALL = 'measured-unit.md';

describe('the examples through the command', () => {
  it.each([...texts.keys()].filter(name => name.endsWith('.md')))(
    '%s ends well and leaves a report',
    notebook => {
      const args = ['run', notebook, ...(notebook === WITH_ALL ? [] : ['--samples', '8'])];
      const called = command(withItsFiles(notebook), args, 240);
      expect(called.err).toBe('');
      expect(called.code).toBe(0);
      expect(called.read(`out/${notebook.replace(/md$/u, 'html')}`)).toContain('</html>');
      if (notebook !== WITH_ALL) return;
      const { blocks } = JSON.parse(called.read('out/measured-unit.json')) as Exported;
      expect(blocks.find(({ name }) => name === 'from_the_bench')?.result?.intervals?.samples).toBe(128);
    },
    300_000,
  );
});
