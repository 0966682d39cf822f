/** What the author of a notebook answers, lifted to the head of report, sheet and terminal: through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const notebook = (answer: string): string =>
  `---
title: The ferry car
${answer}
---

# The ferry car

Some words before.

## What we say

- It needs \`= dash.time_to_50_km_h\`, which is **enough**.

### And why

Because of the ramp.

## The numbers

\`\`\`yaml car one
mass: 1000 kg
tyres: { size: 165/80 R 13 }
drive: { axle: rear, ratio: 8, unit: unit_100kw }
pack: { cell: cell_nmc_21700, series: 96, parallel: 5 }
\`\`\`

\`\`\`yaml launch dash
car: one
\`\`\`
`;

const run = (answer: string): ReturnType<typeof command> =>
  command({ 'a.md': notebook(answer) }, ['run', 'a.md', '--samples', '0', '--brief']);

describe('the answer of the author', () => {
  const called = run('answer: What we say');
  const [page, sheet] = [called.read('out/a.html'), called.read('out/a.brief.html')];

  it('stands first, with its figures, and not again in its place', () => {
    expect(called.code).toBe(0);
    const at = (text: string): number => page.indexOf(text);
    expect(at('The answer')).toBeLessThan(at('What we say'));
    expect(at('What we say')).toBeLessThan(at('Do the tyres waste the power?'));
    expect(page.split('What we say')).toHaveLength(2);
    // What stands below its own headings belongs to it; the next heading of its level does not.
    expect(at('Because of the ramp')).toBeLessThan(at('Do the tyres waste the power?'));
    expect(at('>The numbers</h')).toBeGreaterThan(at('Some words before'));
    expect(page).toMatch(/It needs <output>\d\.\d\d\d? s<\/output>/u);
  });

  it('stands on the sheet and in the terminal too', () => {
    expect(sheet.indexOf('What we say')).toBeLessThan(sheet.indexOf('What holds it back?'));
    expect(called.out.indexOf('- It needs')).toBeGreaterThan(0);
    expect(called.out.indexOf('- It needs')).toBeLessThan(called.out.indexOf('launch dash'));
  });

  it('is looked for by the words of its heading, and missed with its place and the nearest', () => {
    const { code, out, err } = run('answer: What we sai');
    const said = (out + err).replaceAll(/\s+/gu, ' ');
    expect(code).toBe(1);
    expect(said).toContain('a.md:3:9: answer: no heading of this notebook says "What we sai"');
    expect(said).toContain('did you mean "What we say"?');
  });

  it('is no list', () => {
    const { out, err } = run('answer: [a, b]');
    expect(out + err).toContain('is not a single value');
  });
});
