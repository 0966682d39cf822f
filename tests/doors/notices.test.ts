/** Licences of what is bundled. Needs `npm run build`. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const read = (name: string): string => readFileSync(new URL(`../../dist/${name}`, import.meta.url), 'utf8');

/** Name, licence, and words that only its own text has. */
const LIBRARIES: readonly (readonly [name: string, licence: string, words: string])[] = [
  ['mathjs', 'Apache-2.0', 'math.js\nhttps://github.com/josdejong/mathjs'],
  ['vega', 'BSD-3-Clause', 'University of Washington Interactive Data Lab'],
  ['vega-interpreter', 'BSD-3-Clause', 'University of Washington Interactive Data Lab'],
  ['odex', 'BSD-2-Clause', 'Colin Smith'],
  ['yaml', 'ISC', 'Copyright Eemeli Aro'],
  ['markdown-it', 'MIT', 'Vitaly Puzrin, Alex Kocharin'],
  ['ml-matrix', 'MIT', 'The MIT License'],
];

describe('the licences of what is bundled', () => {
  it.each(['NOTICES.txt', 'cli/live-notices.txt'])('stand in %s', file => {
    const text = read(file);
    for (const [name, licence, words] of LIBRARIES) {
      expect(text, name).toMatch(new RegExp(`^${name} [\\d.]+ \\(${licence}\\)$`, 'mu'));
      expect(text, name).toContain(words);
    }
    expect(text.match(/Apache License\s+Version 2\.0/gu)).toHaveLength(1);
  });

  it('go with a page that carries it, and with no other', () => {
    const car = [
      '```yaml car van',
      'mass: 1240 kg',
      'tyres: {size: 165/80 R 13}',
      'drive: {axle: rear, unit: unit_100kw, ratio: 8.6}',
      'pack: pack_nmc_96s1p_60ah',
      '```',
      '```yaml launch dash',
      'car: van',
      '```',
    ].join('\n');
    const knobs = '```yaml knobs\nover:\n  - { path: van.drive.ratio, from: 6, to: 12, step: 0.5 }\n```\n';
    const called = command({ 'a.md': `${car}\n${knobs}`, 'b.md': car }, ['run', 'a.md', 'b.md', '--samples', '0']);
    for (const [name] of LIBRARIES) expect(called.read('out/a.html')).toContain(`\n${name} `);
    expect(called.read('out/b.html')).not.toContain('Apache License');
  });
});
