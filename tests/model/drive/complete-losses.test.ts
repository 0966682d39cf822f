import { describe, expect, it } from 'vitest';
import { completeLosses } from '../../../src/model/drive/complete-losses.ts';
import type { LossTable } from '../../../src/model/drive/efficiency-map.ts';
import type { Input } from '../../../src/model/fields/input.ts';
import { SpecError } from '../../../src/model/fields/spec-error.ts';

const shape = { copper: 0.3, iron: 0.01, windage: 5e-6, fixed: 600 };
const ratings = { peakTorque: 100, peakPower: 40e3, powerAtTop: 1, maxSpeed: 400, voltage: 350 };
const [speed, torque] = [
  [0, 200, 400],
  [0, 50, 100],
];
const table: LossTable = {
  voltage: [],
  speed,
  torque,
  loss: speed.flatMap(w => torque.map(T => 0.3 * T * T + w + 500)),
};
const point = { speed: 300, torque: 40, efficiency: 0.907852927826 };

function complete(spec: Parameters<typeof completeLosses>[1], from: LossTable | null = null) {
  const inputs: Input[] = [];
  return { inputs, ...completeLosses('coupe.drive.unit', spec, from, ratings, shape, inputs) };
}

describe('the losses of a drive unit', () => {
  it('are constants where nothing is measured', () => {
    expect(complete({ copperLoss: 0.2 })).toMatchObject({
      from: 'constants',
      map: null,
      fit: null,
      notes: [],
      inputs: [],
    });
  });

  it('are those of a map, with a note on what it takes the place of', () => {
    const made = complete({ mapIncludes: 'motor and inverter', copperLoss: 0.2, inverterEfficiency: 0.97 }, table);
    expect(made).toMatchObject({ from: 'map', withInverter: true, fit: null, map: { speed, torque } });
    expect(made.notes.at(-1)).toBe('what is measured takes the place of copper_loss, inverter_efficiency');
    expect(complete({ mapIncludes: 'motor', inverterEfficiency: 0.97 }, table).notes).toEqual([
      'braking loses what driving loses at the same torque and speed',
    ]);
  });

  it('are fitted to stated efficiencies, and listed with how well', () => {
    const { from, fit, withInverter, inputs, notes } = complete({ mapIncludes: 'motor', efficiencyPoints: [point] });
    expect([from, withInverter]).toEqual(['points', false]);
    expect(fit?.losses.copper).toBeCloseTo(0.3, 9);
    expect(notes).toEqual([expect.stringMatching(/too few/)]);
    expect(inputs).toHaveLength(4);
    expect(inputs[0]).toMatchObject({
      path: 'coupe.drive.unit.copper_loss',
      unit: 'W/(N m)^2',
      origin: {
        kind: 'computed',
        formula: expect.stringMatching(/to 1 efficiency points, missed by 0\.00 percentage points rms/) as string,
      },
    });
  });

  it.each([
    [{ efficiencyPoints: [point] }, null, 'coupe.drive.unit.map_includes', /is missing/],
    [{ mapIncludes: 'motor', efficiencyPoints: [point] }, table, 'coupe.drive.unit.efficiency_points', /beside a map/],
    [{ mapIncludes: 'motor', efficiencyPoints: [] }, null, 'coupe.drive.unit.efficiency_points', /no point/],
    [{ mapIncludes: 'motor' }, { ...table, speed: [0, 100, 200] }, 'coupe.drive.unit.map', /ends at 1910 rpm/],
  ] as const)('refuse %j', (spec, from, path, message) => {
    const refused = () => complete(spec, from);
    expect(refused).toThrow(message);
    try {
      refused();
    } catch (error) {
      expect((error as SpecError).path).toBe(path);
    }
  });
});
