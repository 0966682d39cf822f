/** What a launch says has happened, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const NOTEBOOK = `# Words

\`\`\`yaml car both
mass: 1500 kg
tyres: { size: 165/80 R 13 }
drive: { axle: front, ratio: 9, unit: { peak_torque: 250 N m, peak_power: 90 kW } }
second_drive: { axle: rear, ratio: 9, unit: { peak_torque: 300 N m, peak_power: 110 kW } }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2, charge: 60 % }
\`\`\`

\`\`\`yaml car geared
mass: 1100 kg
tyres: { size: 165/80 R 13 }
drive:
  axle: rear
  ratio: 4.1
  unit: { peak_torque: 150 N m, peak_power: 60 kW }
  gearbox: { gears: [3.4, 1.9, 1.2], shift: speed }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }
\`\`\`

\`\`\`yaml launch four
car: both
\`\`\`

\`\`\`yaml launch shifting
car: geared
\`\`\`
`;

interface Told {
  readonly name?: string;
  readonly result?: {
    readonly events: readonly { readonly what: string }[];
    readonly series: Readonly<Record<string, Readonly<Record<string, { readonly label: string }>>>>;
  };
}

describe('the events of a launch', () => {
  const called = command({ 'words.md': NOTEBOOK }, ['run', 'words.md', '--samples', '0']);
  const { blocks } = JSON.parse(called.read('out/words.json')) as { readonly blocks: readonly Told[] };
  const result = (cell: string): NonNullable<Told['result']> => {
    const found = blocks.find(({ name }) => name === cell)?.result;
    if (found === undefined) throw new Error(`no ${cell}: ${called.out}`);
    return found;
  };
  const said = (cell: string): readonly string[] => result(cell).events.map(({ what }) => what);

  it('are in words of the trade: no numbers of modes, speeds as people write them', () => {
    const all = [...said('four'), ...said('shifting')];
    expect(all).toContain('passes 50 km/h');
    expect(all).toContain('passes 1/4 mile');
    for (const what of all) {
      expect(what).not.toMatch(/km h|limit \d|_|undefined/u);
      // The only numbers are marks and gears.
      expect(what.replace(/^passes [\d/]+ \S+$|gear \d/u, '')).not.toMatch(/\d/u);
    }
  });

  it('name the axle where two are driven, each with a grip of its own', () => {
    const axles = said('four').filter(what => /axle: /u.test(what));
    expect(axles).toContain('front axle: leaves the grip limit');
    expect(said('shifting').some(what => /axle: /u.test(what))).toBe(false);
    const { time } = result('four').series;
    expect(time?.['grip_force_N']?.label).toBe('grip of the front tyres');
    expect(time?.['rear_grip_force_N']?.label).toBe('grip of the rear tyres');
  });

  it('tell changes of gear as such', () => {
    expect(said('shifting').filter(what => what.includes('gear'))).toEqual(['gear 1 is let go', 'gear 2 is engaged']);
  });
});
