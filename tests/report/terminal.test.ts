import { describe, expect, it } from 'vitest';
import { SIGN } from '../../src/plots/kit/palette.ts';
import { bandLines, terminalSummary, wrap } from '../../src/report/terminal.ts';
import { launch, outcome, problem } from './fixture.ts';

describe('terminal summary', () => {
  const text = terminalSummary(outcome(), { color: false, width: 72 });

  it.each([40, 60, 72, 100, 200])('fits into %i characters, but for source lines under carets', width => {
    const lines = terminalSummary(outcome(), { color: false, width }).split('\n');
    const marked = lines.findIndex(line => /^\s*\^+$/.test(line));
    expect(marked).toBeGreaterThan(0);
    lines
      .filter((_, i) => i !== marked && i !== marked - 1)
      .forEach(line => expect(line.length, line).toBeLessThanOrEqual(width));
  });

  it('has the key times, the verdict, the band, the checks and the problem', () => {
    expect(text).toMatch(/launch narrow tyres\n {2}to 100 km\/h \d+\.\d\d s/);
    expect(text.replace(/\s+/g, ' ')).toContain('these tyres can not put down');
    expect(text).toMatch(/\|G+P+S+\|/);
    expect(text).toContain('checks: 1 holds, 1 fails');
    expect(text.replace(/\s+/g, ' ')).toContain(
      'fails: Summer tyres are quick: 9.31 s < 5 s (line 64, summer_tyres.time_to_100_km_h < 5 s)',
    );
    expect(text).toContain('problems: 1');
  });

  it('sets the carets under the wrong part', () => {
    const lines = text.split('\n');
    const at = lines.findIndex(line => line.includes('^'));
    const marked = lines[at - 1]?.slice(lines[at]?.indexOf('^'), (lines[at]?.lastIndexOf('^') ?? 0) + 1);
    expect(marked).toBe('120 kgs'.slice(0, problem.length));
  });

  it('is coloured only where asked for', () => {
    expect(text).not.toContain('\u001b');
    expect(terminalSummary(outcome(), { color: true, width: 72 })).toContain('\u001b[');
  });

  it('lets no control character of the notebook through', () => {
    const hostile = terminalSummary(
      outcome({ title: 'a\u001b[2Jb\u0007\u202ec', problems: [{ ...problem, source: 'x\u001b[31m' }] }),
      {
        color: false,
        width: 80,
      },
    );
    // oxlint-disable-next-line no-control-regex -- these are looked for
    expect(hostile).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
  });

  it('says nothing of checks and problems where there are none', () => {
    const quiet = terminalSummary(outcome({ blocks: [], problems: [], failedChecks: 0 }), { color: false, width: 72 });
    expect(quiet).toBe('The beekeeper’s van\nscenarios/beekeeper.md\n');
  });
});

describe('the band in letters', () => {
  it('gives each limiter room in proportion to its time', () => {
    const result = { ...launch({ mu: 0.7, power: 118_000 }), bands: [{ from: 0, to: 1e9, limiter: 'heat' as const }] };
    const [strip] = bandLines(result, 50);
    expect(strip).toBe(`  |${SIGN.heat.repeat(46)}|`);
  });

  it('is left out without bands', () => {
    expect(bandLines({ ...launch({ mu: 0.7, power: 118_000 }), bands: [] }, 50)).toEqual([]);
  });
});

describe('wrap', () => {
  it('breaks between words, and inside a word only when it must', () => {
    expect(wrap('one two three', 8, '')).toEqual(['one two', 'three']);
    expect(wrap('abcdefghij', 6, '  ')).toEqual(['  abcd', '  efgh', '  ij']);
    expect(wrap('', 10, '')).toEqual([]);
  });
});
