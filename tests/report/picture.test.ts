/** A picture of a result without a notebook is the one of its report. */
import { describe, expect, it } from 'vitest';
import { picture, pictureNames } from '../../src/doors/report.ts';
import {
  charge,
  completeCar,
  completeSurroundings,
  drive,
  launch,
  range,
  scheduleNamed,
  steady,
  tripThrough,
} from '../../src/index.ts';
import { reportOf } from '../../src/report/kinds.ts';

const { car } = completeCar({
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit: 'unit_100kw', ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
});
const where = completeSurroundings({});
const trip = tripThrough('way', [scheduleNamed('nedc_urban')]);

describe('a picture', () => {
  const result = launch(car, where);

  it('is a whole SVG that says what it is, with its words and its spec', async () => {
    const { svg, title, caption, spec } = await picture(result, 'trace');
    expect(svg).toMatch(/^<svg [^>]*role="img" aria-label="[^"]+"[^>]*>.*<\/svg>$/su);
    expect(svg).toContain('xmlns="http://www.w3.org/2000/svg"');
    expect(svg).not.toContain('aria-hidden');
    expect(title.length).toBeGreaterThan(5);
    expect(caption).toContain('km/h');
    expect(spec).toHaveProperty('config');
  });

  it('may be in imperial units, and of another width', async () => {
    expect((await picture(result, 'trace', { system: 'imperial' })).svg).toContain('mph');
    const wide = async (width: number) =>
      Number(/width="([\d.]+)"/u.exec((await picture(result, 'trace', { width })).svg)?.[1]);
    expect(await wide(400)).toBeLessThan((await wide(800)) / 1.7);
  });

  it('that there is none of is refused, with those that there are', async () => {
    await expect(picture(result, 'tracs')).rejects.toThrow('it has trace, force, pack, energy');
  });

  it.each([
    ['drive', drive(car, trip, where)],
    ['range', range(car, trip, where)],
    ['steady', steady(car, { ...where, speed: 25, speeds: [15, 25, 35] })],
    ['charge', charge(car, { supply: { voltage: 230, current: 16, phases: 1 }, temperature: 293.15 })],
  ])('of a %s', async (_, other) => {
    const names = pictureNames(other);
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) expect((await picture(other, name)).svg.length).toBeGreaterThan(1000);
  });

  it('has the names that the page has', async () => {
    const body = await reportOf(result).body(result, 'metric', 'x', { ledger: null as never, brackets: null });
    for (const name of pictureNames(result)) expect(JSON.stringify(body)).toContain(`x-${name}`);
  });
});
