/** What a first notebook says otherwise than it may: each is told with its line, its field and what to write, by the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const SAID = {
  mass: '1240 kg',
  tyres: '{size: 165/80 R 13}',
  drive: '{axle: rear, unit: unit_150kw, ratio: 8.6}',
  pack: '{cell: cell_nmc_60ah, series: 96, parallel: 2}',
};
const fence = (head: string, text: string): string => `\`\`\`${head}\n${text}\n\`\`\`\n`;
const car = (name: string, change: Readonly<Record<string, string>>): string =>
  fence(
    `yaml car ${name}`,
    Object.entries({ ...SAID, ...change })
      .map(([key, value]) => `${key}: ${value}`)
      .join('\n'),
  );
const unit = (text: string): string => SAID.drive.replace('unit_150kw', text);

const CARS: readonly (readonly [name: string, change: Readonly<Record<string, string>>, told: string])[] = [
  [
    'energy',
    { pack: '42 kWh' },
    'energy.pack: no part of kind pack is called "42 kWh"; expected the name of a pack, or its cells, which give the energy: 96 x 2 of cell_nmc_60ah hold 42.9 kWh; did you mean "{ cell: cell_nmc_60ah, series: 96, parallel: 2 }"?',
  ],
  [
    'small',
    { pack: '21 kWh' },
    '96 x 1 of cell_nmc_60ah hold 21.4 kWh; did you mean "{ cell: cell_nmc_60ah, series: 96, parallel: 1 }"?',
  ],
  [
    'energies',
    { pack: '{energy: 63 kWh}' },
    'energies.pack.energy: unknown key "energy"; expected what its cells make of it: pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }',
  ],
  ['volts', { pack: '{cell: cell_nmc_60ah, voltage: 350 V, parallel: 2}' }, 'expected what its cells make of it'],
  [
    'capacity',
    { battery_capacity: '42 kWh' },
    'unknown key "battery_capacity"; expected what its cells make of it: pack: {',
  ],
  [
    'cells',
    { pack: 'cell_nmc_60ah' },
    'expected a pack of such cells; did you mean "{ cell: cell_nmc_60ah, series: 96, parallel: 2 }"?',
  ],
  ['counts', { pack: '102s3p' }, 'did you mean "{ cell: cell_nmc_60ah, series: 102, parallel: 3 }"?'],
  [
    'letter',
    { pack: '{cell: cell_nmc_60ah, series: 96s, parallel: 2p}' },
    'letter.pack.parallel: unknown unit "p"; expected a pure number such as "0.85"; did you mean "2"?',
  ],
  [
    'chemistry',
    { pack: '{chemistry: LFP, series: 96, parallel: 2}' },
    'expected the cell itself: cell: cell_lfp_100ah',
  ],
  ['distance', { range: '200 km' }, 'unknown key "range"; expected a range cell, which works it out'],
  ['power', { drive: unit('150 kW') }, 'expected the name of a unit, or what it gives: { peak_power: 150 kW'],
  [
    'pounds',
    { drive: unit('{peak_power: 150 kW, peak_torque: 230 lb*ft}') },
    '"230 lb*ft" is a quantity in lb*ft; expected a torque such as "250 N m"; did you mean "lbf ft"?',
  ],
  [
    'table',
    { drive: unit('{torque_speed: [0 rpm, 4000 rpm], torque: [300 N m, 150 N m]}') },
    'table.drive.unit.torque: unknown key "torque"; did you mean "table_torque"?',
  ],
  [
    'driven',
    { drive: SAID.drive.replace('rear', 'RWD') },
    'driven.drive.axle: unknown word "RWD"; expected front, rear',
  ],
  [
    'inverse',
    { drive: SAID.drive.replace('8.6', '0.116') },
    '0.116 is too small; expected 0.2 to 100; did you mean "8.62"?',
  ],
  [
    'ratios',
    { drive: SAID.drive.replace('8.6', '[3.5, 2.1, 1.4]') },
    'ratios.drive.ratio: is a list; expected a pure number such as "0.85"; did you mean "gearbox: { gears: [3.5, 2.1, 1.4] }"?',
  ],
  [
    'gearbox',
    { drive: SAID.drive.replace('8.6', '4.1, gearbox: [3.5, 2.1]') },
    'gearbox.drive.gearbox: is not a group; expected a group of gears, efficiency, inertia ...; did you mean "{ gears: [3.5, 2.1] }"?',
  ],
  ['braking', { drive: SAID.drive.replace('8.6', '8.6, regeneration: off') }, 'did you mean "{ kind: none }"?'],
  ['share', { drive: SAID.drive.replace('8.6', '8.6, regeneration: 60 %') }, 'did you mean "{ share: 60 % }"?'],
  [
    'axles',
    { tyres: '{front: 165/80 R 13}' },
    'axles.tyres.front: unknown key "front"; expected front_tyres: { ... } as a line of the car',
  ],
  [
    'percent',
    { tyres: '{size: 165/80 R 13, dry_peak: 95}' },
    '95 is too large; expected 0.05 to 3; did you mean "0.95"?',
  ],
  ['heavy', { mass: '2700 pounds' }, 'unknown unit "pounds"; expected a mass such as "1010 kg"; did you mean "lb"?'],
  ['words', { mass: '1200 to 1300 kg' }, 'did you mean "1200 kg .. 1300 kg"?'],
  [
    'dash',
    { mass: '1200-1300 kg' },
    'a dash is no range; expected two dots between the ends of what is not known better; did you mean "1200 kg .. 1300 kg"?',
  ],
  [
    'wide',
    { mass: '1200 kg - 1300 kg' },
    'a dash is no range; expected two dots between the ends of what is not known better; did you mean "1200 kg .. 1300 kg"?',
  ],
  [
    'until',
    { mass: '1200 kg to 1300 kg' },
    '"to" makes no range; expected two dots between the ends of what is not known better; did you mean "1200 kg .. 1300 kg"?',
  ],
  [
    'ends',
    { mass: '[1200 kg, 1300 kg]' },
    'ends.mass: is a list; expected a mass such as "1010 kg"; did you mean "1200 kg .. 1300 kg"?',
  ],
  [
    'persons',
    { load: '3 persons' },
    'unknown unit "persons"; expected a mass such as "1010 kg"; did you mean "225 kg"?',
  ],
  [
    'two',
    { drive: '[{axle: front}, {axle: rear}]' },
    'is not a group; expected drive: { ... } for one axle and second_drive',
  ],
  ['drives', { drives: '[{axle: front}]' }, 'unknown key "drives"; expected drive: { ... } for one axle'],
  ['halves', { front_share: '56/44' }, '56/44 is too large; expected 5 % to 95 %; did you mean "56 %"?'],
  [
    'feet',
    { frontal_area: '19 sq ft' },
    'unknown unit "sq ft"; expected an area such as "0.65 m^2"; did you mean "ft^2"?',
  ],
  ['towed', { trailer: '750 kg' }, 'did you mean "{ mass: 750 kg }"?'],
  [
    'warm',
    { cabin: 'heated' },
    'expected what heats it: resistive or heat pump; did you mean "{ heater: resistive }"?',
  ],
];

const CELLS: readonly (readonly [fence: string, told: string])[] = [
  [fence('yaml launch nobody', 'temperature: 20 degC'), 'nobody.car: is missing; expected the name of a car cell'],
  [fence('yaml launch hill', 'car: mine\nslope: 5 deg'), 'hill.slope: "5 deg" is an angle; expected a pure number'],
  [
    fence('yaml charge wall', 'car: mine\npower: 11 kW'),
    'wall.power: unknown key "power"; expected the wall in supply:',
  ],
  [fence('yaml launch sprint', 'car: mine\nto: 0-100 km/h'), 'did you mean "100 km/h"?'],
  [fence('yaml acceleration go', 'car: mine'), 'did you mean "launch"?'],
  [fence('yaml 0-100 go', 'car: mine'), 'unknown kind of cell "0-100"'],
  [fence('yaml sweep s', 'of: fine\nvary: x'), 's.vary: unknown key "vary"; expected one of'],
  [fence('yaml weigh w', 'remove: x'), 'w.remove: unknown key "remove"; did you mean "out"?'],
  [
    fence('yaml car set', 'mass = 1240 kg\npack: x'),
    'an equals sign sets nothing here; expected name: value; did you mean "mass: 1240 kg"?',
  ],
];

describe('a first notebook', () => {
  const all = [
    ...CARS.map(([name, change]) => car(name, change)),
    car('mine', {}),
    fence('yaml launch fine', 'car: mine'),
    ...CELLS.map(([text]) => text),
  ];
  const { out, err, code } = command({ 'a.md': all.join('\n') }, ['check', 'a.md']);
  const said = `${out}${err}`.replaceAll(/\s+/gu, ' ');

  it('is not fine', () => {
    expect(code).toBe(1);
  });

  it.each(CARS)('is told of %s', (_name, _change, told) => {
    expect(said).toContain(told);
  });

  it.each(CELLS)('is told of %s', (_text, told) => {
    expect(said).toContain(told);
  });
});
