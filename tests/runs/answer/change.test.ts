import { describe, expect, it } from 'vitest';
import { createDrawn } from '../../../src/runs/answer/drawn-spec.ts';
import { ownChanges, withChanges, withOwnChanges } from '../../../src/runs/answer/change.ts';

const spec = { mass: 1000, drive: { ratio: 9, unit: { peakPower: 1e5 } }, pack: { series: 96 } };

/** Without the mark of what is made for one sample alone. */
const plain = (made: object): object => structuredClone(made);

describe('changes of one name', () => {
  const changes = [
    { path: 'coupe.drive.ratio', value: 8 },
    { path: 'coupe.mass', value: 900, drawn: true as const },
    { path: 'coupes.mass', value: 1 },
    { path: 'dash.temperature', value: 280 },
  ];

  it('are made, and no others', () => {
    expect(withOwnChanges(spec, 'coupe', changes)).toEqual({ ...spec, mass: 900, drive: { ...spec.drive, ratio: 8 } });
    expect(plain(createDrawn(spec, 'coupe')(changes))).toEqual({ ...spec, mass: 900 });
    expect(createDrawn(spec, 'other')(changes)).toBe(spec);
    expect(withOwnChanges(spec, 'coupe', changes, 'others').mass).toBe(1000);
    expect(withOwnChanges(spec, 'other', changes)).toBe(spec);
    expect(withOwnChanges(spec, 'coupe', changes)).toEqual(withChanges(spec, ownChanges('coupe', changes)));
  });

  it('make a part once, however many rows share them, and each part anew where it is another one', () => {
    const { drive } = withOwnChanges(spec, 'coupe', changes);
    expect(withOwnChanges({ ...spec, mass: 1200 }, 'coupe', changes).drive).toBe(drive);
    const other = withOwnChanges({ ...spec, drive: { ratio: 9, unit: { peakPower: 2e5 } } }, 'coupe', changes);
    expect(other.drive).toEqual({ ratio: 8, unit: { peakPower: 2e5 } });
    expect(withOwnChanges(spec, 'coupe', changes).drive).toBe(drive);
  });

  it('make parts that are not said', () => {
    const deep = [{ path: 'coupe.cabin.heat_pump.power', value: 5 }];
    expect(withOwnChanges(spec, 'coupe', deep)).toEqual({ ...spec, cabin: { heatPump: { power: 5 } } });
    expect(withOwnChanges({ ...spec, cabin: {} }, 'coupe', deep)).toEqual({
      ...spec,
      cabin: { heatPump: { power: 5 } },
    });
  });
});

describe('drawn values', () => {
  const sample = (mass: number, power: number, ratio: number) => [
    { path: 'coupe.drive.unit.peak_power', value: power, drawn: true as const },
    { path: 'coupe.mass', value: mass, drawn: true as const },
    { path: 'coupe.drive.ratio', value: ratio, drawn: true as const },
    { path: 'coupe.cabin.heat_pump.power', value: 5, drawn: true as const },
  ];

  it('stand in a specification of their own in each sample, beside what no sample touches', () => {
    const drawn = createDrawn(spec, 'coupe');
    const [first, second] = [drawn(sample(900, 9e4, 8)), drawn(sample(950, 8e4, 7))];
    for (const [found, mass, power, ratio] of [
      [first, 900, 9e4, 8],
      [second, 950, 8e4, 7],
    ] as const) {
      const cabin = { heatPump: { power: 5 } };
      expect(plain(found)).toEqual({ ...spec, mass, drive: { ratio, unit: { peakPower: power } }, cabin });
      expect(found.pack).toBe(spec.pack);
    }
  });

  it('go elsewhere when other paths are drawn', () => {
    const drawn = createDrawn(spec, 'coupe');
    drawn(sample(900, 9e4, 8));
    expect(plain(drawn(sample(900, 9e4, 8).toReversed().slice(1)))).toEqual(
      withOwnChanges(spec, 'coupe', sample(900, 9e4, 8).slice(0, 3)),
    );
    expect(drawn([{ path: 'coupe.mass', value: 1 }])).toBe(spec);
  });
});
