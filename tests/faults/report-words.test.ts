/** What reports say of shares, limits, goals and inputs, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/gu, ' ').replaceAll(/\s+/gu, ' ');

const car = (name: string, ...more: string[]): string =>
  fence(
    `car ${name}`,
    'mass: 1180 kg ± 15 kg',
    'tyres: { from: tyre_narrow, size: 165/80 R 14 }',
    'drive: { axle: rear, unit: unit_60kw, ratio: 9 }',
    'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2 }',
    ...more,
  );

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly summary: { readonly [key: string]: number | null };
      readonly reasons: { readonly [key: string]: string };
      readonly series: { readonly [name: string]: { readonly [key: string]: { readonly values: readonly unknown[] } } };
      readonly warnings: readonly string[];
      readonly verdicts?: readonly string[];
    };
  }[];
}

function run(text: string) {
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  const { blocks } = JSON.parse(called.read('out/a.json')) as Exported;
  const of = (name: string) => {
    const result = blocks.find(each => each.name === name)?.result;
    if (result === undefined) throw new Error(`no ${name}: ${called.out}${called.err}`);
    return result;
  };
  return { of, out: plain(called.out), page: plain(called.read('out/a.html')), code: called.code };
}

describe('a ranking', () => {
  const { of, page } = run(
    car('van') +
      fence('launch hop', 'car: van') +
      fence('rank doubt', 'of: hop', 'output: hop.time', 'choices: drive.ratio', 'points: 32', 'inputs: 60'),
  );
  const inputs = of('doubt').series['inputs'] ?? {};
  const at = (key: string, path: string): number =>
    Number(inputs[key]?.values[inputs['path']?.values.indexOf(path) ?? -1]);

  it('has bars and shares of the same draws: a mass of cells is that of a car on the scales in both', () => {
    const base = of('doubt').summary['value'] ?? Number.NaN;
    const width = (path: string): number => Math.abs(at('high', path) - at('low', path));
    // The mass of the cells stands in that of the car: alone it changes nothing but the heat of the pack.
    expect(width('van.pack.cell.mass')).toBeLessThan(1e-4 * base);
    expect(at('total_1', 'van.pack.cell.mass')).toBeLessThan(1e-3);
    expect(width('van.mass')).toBeGreaterThan(1e-3 * base);
  });

  it('prints no share below nothing, and each with its error', () => {
    const shares = (inputs['first_1']?.values ?? []).map(Number);
    expect(shares.some(share => share < 0)).toBe(true);
    const from = page.indexOf('All uncertain inputs');
    const table = page.slice(from, page.indexOf('</table>', from));
    expect(table).not.toMatch(/<td>−\d/u);
    expect(table).toMatch(/<td>under \d+ %<\/td>/u);
    expect(table).toMatch(/<td>\d+ ± \d+ %<\/td>/u);
  });

  it('names inputs and choices in words', () => {
    expect(of('doubt').verdicts?.[0]).toMatch(
      /comes from [a-z ]+ of the van car \([a-z ]+ of it\)|perhaps [a-z ]+ of the van car \(/u,
    );
    expect(of('doubt').verdicts?.[1]).toContain('the drive ratio of the van car moves');
  });
});

describe('a comparison', () => {
  const scales = fence(
    'weigh plan',
    'scales: { front: 560 kg, rear: 520 kg }',
    'wheelbase: 2.4 m',
    'cg_height: 0.55 m',
    'in: [{ name: pack, mass: 100 kg, x: 1.2 m, height: 0.4 m }]',
    'driver: { mass: 75 kg, x: 1.3 m, height: 0.6 m }',
    'load: [{ name: passengers, mass: 225 kg, x: 2 m, height: 0.6 m }]',
  );
  const small = car('small').replace('mass: 1180 kg ± 15 kg\n', 'weights: plan\n');
  const { of } = run(
    scales +
      small +
      fence('car big', 'from: small', 'pack: { parallel: 4 }', 'mass: 1600 kg') +
      fence('steady week', 'car: small', 'speed: 80 km/h') +
      fence(
        'compare which',
        'of: week',
        'cars: small, big',
        'outputs: week.range',
        'prices: 1000, 9000',
        'gross_mass: 1450 kg',
      ),
  );

  it('holds limits against all seats where the car was weighed with them, and says so where it was not', () => {
    const { warnings } = of('which');
    // 1180 kg, 75 kg and 225 kg.
    expect(warnings.join('\n')).toContain('small breaks the permitted mass: 1480 kg fully loaded against 1450 kg');
    expect(warnings.join('\n')).toContain('with driver and load alone against 1450 kg');
  });

  it('counts no car that breaks a limit among the steps that pay', () => {
    const told = of('which').verdicts?.join('\n') ?? '';
    expect(told).toContain('no car keeps the limits');
    expect(told).not.toContain('every step up in price pays');
    expect(told).toContain('there is no step to pay for');
  });
});

it('a launch to a speed of its own tells the time to it on the terminal', () => {
  const { out, of } = run(car('van') + fence('launch hop', 'car: van', 'to: 80 km/h'));
  expect(out).toContain(`launch hop to 80 km/h ${(of('hop').summary['time'] ?? Number.NaN).toFixed(2)} s, to 100 km/h`);
});

describe('a drive', () => {
  const { of, page, out } = run(
    car('van', 'cabin: { heater: resistive }') +
      fence('drive down', 'car: van', 'trip: [{ speed: 50 km/h, distance: 6 km, slope: -6 % }]', 'charge: 60 %') +
      fence('drive cold', 'car: van', 'schedule: wltc_low', 'charge: 60 %', 'temperature: -12 degC') +
      fence('sweep ratios', 'of: cold', 'outputs: cold.consumption', 'over: [{ path: drive.ratio, values: [8, 9] }]'),
  );

  it('down a hill has shares of what the slope gives', () => {
    expect(page).toMatch(/down the slope<\/th><td>put in<\/td><td>[\d.]+<\/td><td>100\.0<\/td>/u);
    const [, cells] = /into the cells<\/th><td>[^<]*<\/td><td>[\d.]+<\/td><td>([\d.]+)<\/td>/u.exec(page) ?? [];
    expect(Number(cells)).toBeGreaterThan(20);
  });

  it('that feeds its heater with what slowing down gives does not recover nothing', () => {
    expect(of('cold').summary['braking_recovered']).toBeNull();
    expect(of('cold').reasons['braking_recovered']).toContain('heating at once');
    expect(of('down').summary['braking_recovered']).toBeGreaterThan(0.5);
  });

  it('is swept over inputs that are named in words', () => {
    expect(out).toMatch(/with [89] for the drive ratio of the van car;/u);
  });
});

it('two launches, one of which can not move off, make a report all the same', () => {
  const { of, page, code } = run(
    car('van') +
      car('weak').replace('ratio: 9', 'ratio: 3') +
      fence('launch level', 'car: van') +
      fence('launch steep', 'car: weak', 'slope: 40 %'),
  );
  expect(code).toBe(0);
  expect(of('level').summary['time']).toBeTypeOf('number');
  expect(of('steep').summary['time']).toBeNull();
  expect(of('steep').reasons['time']).toMatch(/does not move off|comes to rest|rolls back/u);
  const cards = page.slice(page.indexOf('class="cards'), page.indexOf('id="workings"'));
  expect(cards.match(/<article class="card"/gu)).toHaveLength(2);
});
