import { describe, expect, it } from 'vitest';
import { ownChanges, withChanges, withOwnChanges } from '../../../src/runs/answer/change.ts';

const spec = { mass: 1000, drive: { ratio: 9, unit: { peakPower: 1e5 } }, pack: { series: 96 } };

describe('changes of one name', () => {
  const changes = [
    { path: 'coupe.drive.ratio', value: 8 },
    { path: 'coupe.mass', value: 900, drawn: true as const },
    { path: 'coupes.mass', value: 1 },
    { path: 'dash.temperature', value: 280 },
  ];

  it('are made, and no others', () => {
    expect(withOwnChanges(spec, 'coupe', changes)).toEqual({ ...spec, mass: 900, drive: { ...spec.drive, ratio: 8 } });
    expect(withOwnChanges(spec, 'coupe', changes, true)).toEqual({ ...spec, mass: 900 });
    expect(withOwnChanges(spec, 'coupe', changes, false).mass).toBe(1000);
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
