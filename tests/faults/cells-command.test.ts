/** What `axlewatt cells` tells, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const cells = (...args: string[]): ReturnType<typeof command> => command({}, ['cells', ...args]);

describe('axlewatt cells', () => {
  it('lists what a run answers with, by the names that formulas use', () => {
    const { code, out } = cells('launch', '--outputs');
    expect(code).toBe(0);
    expect(out).toMatch(/time_to_100_km_h\s+s\n\s+to 100 km\/h: from the pedal going down/u);
    expect(cells('luanch', '--outputs')).toMatchObject({
      code: 2,
      err: expect.stringContaining('did you mean "launch"'),
    });
    expect(cells('--outputs').err).toContain('--outputs goes with a kind of run');
  });

  it('lists schedules with their length and source, and parts by kind', () => {
    // UN GTR No. 15: the WLTC of class 3b is 23 266 m in 1800 s.
    expect(cells('schedules').out).toMatch(/^wltc\s+WLTC, class 3b: 23\.27 km in 1800 s/mu);
    expect(cells('parts').out).toMatch(/^tyre:\n(?:.*\n)*\s+tyre_narrow/mu);
  });

  it('prints a schema that is JSON', () => {
    const whole = JSON.parse(cells('--schema').out) as { readonly $defs: object };
    expect(Object.keys(whole.$defs)).toContain('car');
    const tyre = JSON.parse(cells('part.tyre', '--schema').out) as { readonly properties: object };
    expect(Object.keys(tyre.properties)).toContain('dry_peak');
    expect(cells('moon', '--schema')).toMatchObject({ code: 2 });
  });
});
