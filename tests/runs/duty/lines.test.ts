/** What parts must stand, of runs in which everything is steady: each line then has a closed form, and its words name the numbers. */
import { describe, expect, it } from 'vitest';
import { adiabaticConstant, leastSection } from '../../../src/model/duty/cable.ts';
import type { Result } from '../../../src/runs/result.ts';
import { verdictsOf } from '../../../src/runs/duty/told-lines.ts';
import { judge } from '../../../src/runs/duty/line.ts';
import type { Line, Said, Verdict } from '../../../src/runs/duty/line.ts';
import { brakeLines, chargerLines, converterLine, coolantLine } from '../../../src/runs/duty/lines/beside.ts';
import { dischargeLines, prechargeLines } from '../../../src/runs/duty/lines/bus.ts';
import { currentLines } from '../../../src/runs/duty/lines/currents.ts';
import { shaftLines } from '../../../src/runs/duty/lines/shafts.ts';
import { cableLines, fuseLines } from '../../../src/runs/duty/lines/wires.ts';
import { allFlows, channelsOf, comesAgain, greatestMean, worstOf } from '../../../src/runs/duty/runs.ts';
import type { NamedRun } from '../../../src/runs/duty/runs.ts';
import { Trail, type TrailPoint } from '../../../src/runs/trail/trail.ts';
import { trackOfLevels } from '../../../src/model/duty/track.ts';
import { testCar } from '../../cars.ts';

const REST: TrailPoint = {
  pack: 0,
  voltage: 350,
  front: 0,
  rear: 0,
  consumers: 0,
  frontTorque: 0,
  rearTorque: 0,
  speed: 0,
  heat: 0,
  wall: 0,
};

/** A run of stretches in which everything is steady. */
function run(
  name: string,
  kind: string,
  ...stretches: readonly (readonly [seconds: number, point: Partial<TrailPoint>])[]
): NamedRun {
  const trail = new Trail();
  for (const [seconds, point] of stretches) {
    for (const end of [trail.first, trail.second]) Object.assign(end, REST, point);
    trail.add(seconds);
  }
  return { name, result: { kind, summary: {} } as Result, trail };
}

const by = (lines: readonly Said[], key: string): Said => {
  const found = lines.find(line => line.key === key);
  if (found === undefined) throw new Error(`no ${key} among ${lines.map(line => line.key).join(', ')}`);
  return found;
};
const told = (lines: readonly Said[], key: string): Partial<Said> => {
  const { output: _output, ...rest } = by(lines, key);
  return rest;
};

describe('a line', () => {
  const line = (more: Partial<Said>): string => {
    const output = { label: 'x', unit: 'A', display: { metric: 'A', imperial: 'A' }, doc: '' };
    return judge(0.9)({ key: 'x', part: 'x', output, value: 80, limit: 100, ...more }).verdict;
  };

  it.each<[string, Partial<Said>]>([
    ['pass', {}],
    ['pass', { value: 90 }],
    ['look', { value: 90.1 }],
    ['look', { value: 100 }],
    ['look', { value: 100 * (1 + 5e-10) }],
    ['fail', { value: 100.001 }],
    ['look', { worst: 101 }],
    ['pass', { worst: 100 }],
    ['required', { limit: null }],
    ['look', { value: null }],
    ['pass', { value: 100, sharp: true }],
    ['fail', { value: 101, sharp: true }],
    ['pass', { value: 120, side: 'least' }],
    ['look', { value: 105, side: 'least' }],
    ['fail', { value: 99, side: 'least' }],
    ['figure', { verdict: 'figure' }],
  ])('is %s with %j', (verdict, more) => {
    expect(line(more)).toBe(verdict);
  });
});

describe('the verdicts of a duty', () => {
  const { output } = converterLine(testCar, 1);
  const lines = (...all: (readonly [Verdict, string])[]): readonly Line[] =>
    all.map(([verdict, part]) => ({
      key: part,
      part,
      output,
      value: 1,
      run: '',
      limit: null,
      side: 'most',
      note: '',
      verdict,
    }));

  it('count the lines, the worst first', () => {
    const [fails, looks, passes, needs, last, ...none] = verdictsOf(
      lines(
        ['pass', 'cable'],
        ['fail', 'fuse'],
        ['fail', 'fuse'],
        ['figure', 'brakes'],
        ['look', 'pack'],
        ['look', 'joint'],
        ['required', 'x'],
      ),
    );
    expect(fails).toBe('2 lines are beyond the data sheets that are entered: fuse');
    expect(looks).toBe('2 are to be looked at: pack, joint');
    expect(passes).toBe('1 is within the data sheets that are entered');
    expect(needs).toBe('1 is a requirement: no data sheet is entered for it');
    expect(last).toMatch(/^Not a selection of parts/u);
    expect(none).toEqual([]);
  });

  it('of one line are said of one', () => {
    const [fails, looks] = verdictsOf(lines(['look', 'pack'], ['fail', 'fuse']));
    expect(fails).toBe('1 line is beyond the data sheets that are entered: fuse');
    expect(looks).toBe('1 is to be looked at: pack');
    expect(verdictsOf(lines(['figure', 'brakes']))).toHaveLength(1);
  });
});

describe('the worst of several', () => {
  it('is the first of the greatest, and none of none', () => {
    const all = [{ a: 1 }, { a: 3, b: 1 }, { a: 3, b: 2 }, { a: 2 }];
    expect(worstOf(all, ({ a }) => a)).toBe(all[1]);
    expect(worstOf([] as { a: number }[], ({ a }) => a)).toBeNull();
  });

  it('comes again, but for a launch', () => {
    expect(comesAgain({ kind: 'launch' } as Result)).toBe(false);
    expect(comesAgain({ kind: 'repeat' } as Result)).toBe(true);
  });
});

describe('the greatest mean over a window', () => {
  const steps = trackOfLevels([
    [10, 1],
    [10, 5],
    [10, 3],
    [10, 0],
  ]);

  it.each([
    [10, 5],
    [20, 4],
    [30, 3],
    [40, 90 / 40],
    // Nothing stands beside a run that is shorter.
    [90, 1],
  ])('of %f s', (window, mean) => {
    expect(greatestMean(steps, window)).toBeCloseTo(mean, 12);
  });
});

describe('coolant', () => {
  const hot = run('hot', 'drive', [300, { heat: 4000 }], [600, { heat: 2000 }]);
  const short = run('short', 'launch', [60, { heat: 12_000 }]);

  it('has the greatest mean of ten minutes of all runs', () => {
    // 300 s of 4 kW and 300 s of 2 kW begin at once, a piece is looked at as a whole: 900 s of 2.67 kW; alone 600 s of 2 kW.
    const { value, note, run: name, limit } = coolantLine([short, hot], 3000)!;
    expect(value).toBeCloseTo((300 * 4000 + 600 * 2000) / 900, 9);
    expect([name, limit]).toEqual(['hot', 3000]);
    expect(note).toBe('mean of the whole run of 900 s 2.67 kW');
  });

  it('of a short run has nothing before and after it', () => {
    const { value, note, limit } = coolantLine([short], undefined)!;
    expect(value).toBeCloseTo((60 * 12_000) / 600, 9);
    expect(note).toBe('mean of the whole run of 60 s 12.00 kW');
    expect(limit).toBeNull();
  });

  it('says nothing where no unit gets warm', () => {
    expect(coolantLine([run('cold', 'drive', [60, {}])], 1)).toBeNull();
  });
});

describe('a converter and a charger', () => {
  it('of the 12 V side gives what the car says', () => {
    const { value, limit, key } = converterLine(testCar, 900);
    expect([key, value, limit]).toEqual(['converter_power', testCar.auxiliaries.power, 900]);
    expect(converterLine(testCar, undefined).limit).toBeNull();
  });

  const night = run('night', 'charge', [3600, { pack: -12, consumers: 1, wall: 5000 }]);
  const flows = allFlows(channelsOf(['rear'], 1), [night, run('way', 'drive', [60, { pack: 90, consumers: 2 }])]);
  const charger = flows.find(({ channel }) => channel.part === 'charger')!.flows;

  it('gives the pack and what is drawn beside it, on the wall alone', () => {
    const lines = chargerLines(charger, [night], { direct: 20, phase: 16 });
    expect(lines.map(({ key, value, run: name, limit }) => [key, value, name, limit])).toEqual([
      ['charger_current', 13, 'night', 20],
    ]);
  });

  it('draws the greatest current of a phase', () => {
    const at = (name: string, amps: number): NamedRun => ({
      ...night,
      name,
      result: { kind: 'charge', summary: { peak_phase_current: amps } } as unknown as Result,
    });
    const lines = chargerLines(charger, [at('a', 10), at('b', 15.5)], { direct: undefined, phase: 16 });
    expect(told(lines, 'charger_phase_current')).toMatchObject({ value: 15.5, run: 'b', limit: 16 });
    expect(told(lines, 'charger_current').limit).toBeNull();
    expect(chargerLines([], [night], { direct: 1, phase: 1 })).toEqual([]);
  });
});

describe('half shafts', () => {
  const sheet = {
    torque: 2500,
    joint: 2000,
    dynamicFactor: 1.5,
    mostDynamic: 2,
    exponent: 5,
    gears: 6000,
    gearExponent: 6,
  };
  // Both half shafts together: 2,000 N m driving, 600 N m braking, at 20 m/s, again and again.
  const way = run('way', 'drive', [50, { rearTorque: 2000, speed: 20 }], [50, { rearTorque: -600, speed: 20 }]);
  const start = run('start', 'launch', [5, { rearTorque: 3000, speed: 10 }]);

  it('stand the greatest torque, times the dynamic factor', () => {
    const { lines } = shaftLines([way, start], 'rear', '', 0.3, sheet);
    expect(told(lines, 'shaft_torque')).toEqual({
      key: 'shaft_torque',
      part: 'half shaft',
      value: 2250,
      worst: 3000,
      run: 'start',
      limit: 2500,
      note: 'smooth run 1500 N m driving and 300 N m braking, times a dynamic factor of 1.5, which may be 2: up to 3000 N m; half of the axle with an open differential',
    });
    expect(told(lines, 'joint_torque')).toMatchObject({ part: 'joint', value: 2250, limit: 2000, run: 'start' });
    expect(told(lines, 'gear_torque')).toMatchObject({ part: 'final drive', value: 4500, worst: 6000, limit: 6000 });
  });

  it('of the axle that brakes hardest name the run that does', () => {
    const hard = run('hard', 'drive', [5, { frontTorque: -5000, speed: 10 }]);
    const exact = { ...sheet, mostDynamic: 1.5, torque: undefined, joint: undefined, gears: undefined };
    const { lines } = shaftLines([way, hard], 'front', 'front_', 0.3, exact);
    expect(told(lines, 'front_shaft_torque')).toMatchObject({ part: 'front half shaft', run: 'hard', value: 3750 });
    expect(by(lines, 'front_shaft_torque').note).toBe(
      'smooth run 0 N m driving and 2500 N m braking, times a dynamic factor of 1.5; half of the axle with an open differential',
    );
    expect([by(lines, 'front_shaft_torque').limit, by(lines, 'front_gear_torque').limit]).toEqual([null, null]);
    expect(by(lines, 'front_gear_torque').part).toBe('front final drive');
    expect(by(lines, 'front_joint_torque').part).toBe('front joint');
  });

  it('count turns and torque of each flank over 1000 km', () => {
    const { lines, cycles } = shaftLines([way, start], 'rear', '', 0.3, sheet);
    const turns = 1e6 / (2 * Math.PI * 0.3);
    expect(by(lines, 'wheel_turns').value).toBeCloseTo(turns, 6);
    expect(told(lines, 'gear_equivalent_drive')).toMatchObject({ run: 'way', part: 'final drive', verdict: 'figure' });
    // Steady on each flank: what counts is the torque itself, over half of the way.
    expect(by(lines, 'gear_equivalent_drive').value).toBeCloseTo(2000, 6);
    expect(Math.abs(by(lines, 'gear_equivalent_coast').value ?? 0)).toBeCloseTo(600, 6);
    expect(by(lines, 'gear_equivalent_drive').note).toBe(
      `over ${(turns / 2).toFixed(0)} turns of the wheel in 1000 km`,
    );
    // One range from 1,000 to -300 N m in 2 km comes 500 times in 1000 km, or as half a cycle 250 times.
    const ranged = by(lines, 'shaft_equivalent_range').value ?? 0;
    const count = (ranged / 1300) ** sheet.exponent;
    expect(count).toBeGreaterThanOrEqual(250 * (1 - 1e-9));
    expect(count).toBeLessThanOrEqual(500 * (1 + 1e-9));
    expect(cycles?.run).toBe('way');
    expect(cycles?.classes.reduce((sum, each) => sum + each.count, 0)).toBeCloseTo(count, 6);
  });

  it('say no cycles of a start, which goes no way of a day', () => {
    const { lines, cycles } = shaftLines([start], 'rear', '', 0.3, sheet);
    expect(cycles).toBeNull();
    expect(lines.map(({ key }) => key)).toEqual(['shaft_torque', 'joint_torque', 'gear_torque']);
  });
});

describe('the main fuse', () => {
  const sheet = {
    rated: 200,
    ambient: 0.9,
    share: 0.8,
    pulseShare: 0.5,
    curve: { time: [0.1, 1, 10, 100], current: [1600, 900, 600, 400] },
    voltage: 500,
    breakingCapacity: 10_000,
    leastBreaking: 1000,
  };
  const short = { most: 4000, least: 1500, voltage: 403 };
  const way = run('way', 'drive', [3600, { pack: 120 }]);
  const start = run('start', 'launch', [100, { pack: 300 }]);

  it('bears its rating for ever, and part of what melts it for a time', () => {
    const lines = fuseLines([way, start], sheet, short);
    expect(told(lines, 'fuse_current')).toEqual({
      key: 'fuse_current',
      part: 'main fuse',
      value: 120,
      worst: 120,
      run: 'way',
      limit: 200 * 0.9 * 0.8,
      note: 'against 200 A, times 0.9 for its warmth, times 0.8',
    });
    // 300 A for 100 s, where 400 A melt it: (300/400)².
    expect(by(lines, 'fuse_pulse').value).toBeCloseTo(0.5625, 9);
    expect(told(lines, 'fuse_pulse')).toMatchObject({
      run: 'start',
      limit: 0.5,
      note: '300 A for 100 s, where 400 A melt it',
    });
  });

  it('must break short circuits, the greatest and the least', () => {
    const lines = fuseLines([way], sheet, short);
    expect(told(lines, 'short_circuit_current')).toMatchObject({ value: 4000, limit: 10_000, note: '' });
    expect(told(lines, 'short_circuit_least')).toMatchObject({ value: 1500, limit: 1000, side: 'least', note: '' });
    expect(told(lines, 'fuse_voltage')).toMatchObject({ value: 403, limit: 500, sharp: true });
  });

  it('says what it does not know', () => {
    const bare = { ...sheet, curve: null, voltage: undefined, breakingCapacity: undefined, leastBreaking: undefined };
    const lines = fuseLines([], bare, { most: null, least: null, voltage: 403 });
    expect(lines.map(({ key }) => key)).not.toContain('fuse_current');
    expect(told(lines, 'fuse_pulse')).toMatchObject({
      value: null,
      run: '',
      limit: null,
      note: 'no melting curve is given',
    });
    for (const key of ['short_circuit_current', 'short_circuit_least']) {
      expect(told(lines, key)).toMatchObject({ value: null, limit: null, note: 'the pack has no resistance' });
    }
    expect(by(lines, 'fuse_voltage').limit).toBeNull();
  });
});

describe('the main cable', () => {
  const sheet = {
    current: 200,
    rise: 50,
    time: 600,
    ambient: 313.15,
    greatest: 363.15,
    metal: 'copper',
    section: 50e-6,
    shortHeat: 4e6,
    shortGreatest: 523.15,
  } as const;
  const way = run('way', 'drive', [36_000, { pack: 100 }]);
  const start = run('start', 'launch', [60, { pack: 300 }]);

  it('warms up as the square of its current, with one time constant', () => {
    const lines = cableLines([way], sheet);
    // A quarter of 50 K, after an hour of ten: for ever.
    expect(by(lines, 'cable_temperature').value).toBeCloseTo(313.15 + 12.5, 4);
    expect(told(lines, 'cable_temperature')).toMatchObject({ run: 'way', limit: 363.15, part: 'main cable' });
    const once = 50 * 2.25 * (1 - Math.exp(-0.1));
    const alone = cableLines([start], sheet);
    expect(by(alone, 'cable_temperature').value).toBeCloseTo(313.15 + once, 6);
    // A launch does not come again at once.
    expect(by(alone, 'cable_temperature').worst).toBeCloseTo(313.15 + once, 6);
    expect(by(alone, 'cable_temperature').note).toBe(`${once.toFixed(1)} K above its surroundings`);
  });

  it('says what the same run comes to without a pause', () => {
    const often = run('often', 'repeat', [60, { pack: 300 }]);
    const line = by(cableLines([often], sheet), 'cable_temperature');
    expect(line.worst).toBeCloseTo(313.15 + 50 * 2.25, 6);
    expect(line.note).toMatch(/; often again and again without a pause 112\.5 K$/u);
  });

  it('has the section that bears a short circuit, from its greatest temperature', () => {
    const k = adiabaticConstant('copper', 363.15, 523.15);
    expect(told(cableLines([way], sheet), 'cable_section')).toEqual({
      key: 'cable_section',
      part: 'main cable',
      value: leastSection(4e6, k),
      limit: 50e-6,
      note: `copper, k = ${(k / 1e6).toFixed(0)} A s^0.5/mm², from 90 °C to 250 °C`,
    });
    const free = cableLines([way], { ...sheet, greatest: undefined, section: undefined });
    expect(by(free, 'cable_section').note).toContain('from 53 °C to 250 °C');
    expect([by(free, 'cable_section').limit, by(free, 'cable_temperature').limit]).toEqual([null, null]);
    // With no run it begins at its surroundings.
    expect(cableLines([], { ...sheet, greatest: undefined }).map(({ note }) => note)[0]).toContain('from 40 °C');
    expect(cableLines([way], { ...sheet, shortHeat: undefined }).map(({ key }) => key)).toEqual(['cable_temperature']);
  });
});

describe('currents against a sheet', () => {
  const pulses = [{ current: 300, time: 20 }];
  const way = run('way', 'drive', [10, { pack: 280 }], [90, { pack: 100 }]);
  const start = run('start', 'launch', [5, { pack: 320 }]);
  const flows = (...runs: NamedRun[]) => {
    const found = allFlows(channelsOf(['rear'], 2), runs);
    return (part: string) => found.find(({ channel }) => channel.part === part)!.flows;
  };

  it('are the greatest at an instant, over windows, and of the whole run', () => {
    const lines = currentLines(flows(way, start)('pack'), { continuous: 150, pulses });
    expect(told(lines, 'pack_current')).toMatchObject({ value: 320, run: 'start', limit: 300 });
    expect(told(lines, 'pack_current_1_s')).toMatchObject({ value: 320, run: 'start', limit: 300 });
    expect(told(lines, 'pack_current_10_s')).toMatchObject({ value: 280, run: 'way', limit: 300, worst: 280 });
    // (10 · 280² + 50 · 100²) / 60.
    expect(by(lines, 'pack_current_60_s').value).toBeCloseTo(Math.sqrt((10 * 280 ** 2 + 50 * 100 ** 2) / 60), 9);
    // 150² + (300² - 150²) 20/60: what spends the budget of the pulse in 60 s.
    expect(by(lines, 'pack_current_60_s').limit).toBeCloseTo(Math.sqrt(150 ** 2 + (300 ** 2 - 150 ** 2) / 3), 9);
    expect(by(lines, 'pack_current_60_s').note).toBe(
      'over 60 s the sheet says nothing: 212 A would spend the budget of its 300 A for 20 s over 150 A, (Ip² − Ic²) tp',
    );
    const rms = Math.sqrt((10 * 280 ** 2 + 90 * 100 ** 2) / 100);
    expect(told(lines, 'pack_current_1800_s')).toMatchObject({ limit: 150, run: 'way' });
    expect(by(lines, 'pack_current_1800_s').value).toBeCloseTo(rms * Math.sqrt(100 / 1800), 9);
    expect(by(lines, 'pack_current_1800_s').worst).toBeCloseTo(rms, 9);
    expect(by(lines, 'pack_current_1800_s').note).toBe(
      `way lasts 100 s and not 30 min: once, with nothing before and after; again and again without a pause ${rms.toFixed(0)} A`,
    );
    expect(told(lines, 'pack_current_rms')).toMatchObject({ value: 320, run: 'start', verdict: 'figure' });
  });

  it('spend the budget of a pulse', () => {
    const lines = currentLines(flows(way)('pack'), { continuous: 150, pulses });
    // 10 s above 150 A of the 20 s of the pulse.
    const share = (10 * (280 ** 2 - 150 ** 2)) / (20 * (300 ** 2 - 150 ** 2));
    expect(by(lines, 'pack_budget_20_s').value).toBeCloseTo(share, 9);
    expect(told(lines, 'pack_budget_20_s')).toMatchObject({ limit: 1, run: 'way', note: '' });
  });

  it('say where a budget is used up, and whether another pulse covers it', () => {
    const long = run('long', 'drive', [40, { pack: 290 }]);
    const over = currentLines(flows(long)('pack'), { continuous: 150, pulses });
    const after = (20 * (300 ** 2 - 150 ** 2)) / (290 ** 2 - 150 ** 2);
    expect(by(over, 'pack_budget_20_s').note).toBe(
      `used up after ${Number(after.toPrecision(3))} s of long, which draws up to 290 A`,
    );
    expect(by(over, 'pack_budget_20_s').verdict).toBeUndefined();
    const both = currentLines(flows(long)('pack'), {
      continuous: 150,
      pulses: [...pulses, { current: 295, time: 60 }],
    });
    expect(by(both, 'pack_budget_20_s').verdict).toBe('look');
    expect(by(both, 'pack_budget_20_s').note).toMatch(/; another pulse of the sheet is not overspent$/u);
    expect(by(both, 'pack_budget_60_s').verdict).toBeUndefined();
  });

  it('have no limit where the sheet says nothing', () => {
    const lines = currentLines(flows(way)('pack'), { continuous: undefined, pulses: [] });
    expect(lines.every(({ limit = null }) => limit === null)).toBe(true);
    expect(lines.some(({ key }) => key.includes('budget'))).toBe(false);
    expect(currentLines([], { continuous: 1, pulses })).toEqual([]);
  });

  it('of a string are its share, of both axles have names of their own', () => {
    expect(currentLines(flows(way)('string'), { continuous: undefined, pulses: [] })[0]).toMatchObject({
      key: 'string_current',
      value: 140,
      part: 'string',
    });
    const back = run('back', 'drive', [10, { pack: -40, front: -20, rear: -30 }]);
    const parts = allFlows(channelsOf(['front', 'rear'], 1), [back])
      .filter(({ flows: found }) => found.length > 0)
      .map(({ channel, flows: found }) => [channel.prefix, found[0]!.instant]);
    expect(parts).toEqual([
      ['pack_charge_', 40],
      ['front_inverter_back_', 20],
      ['rear_inverter_back_', 30],
    ]);
  });
});

describe('capacitors', () => {
  const sheet = {
    voltage: 400,
    capacitance: 1e-3,
    resistance: 40,
    share: 0.95,
    loop: 0.1,
    timeLimit: 0.5,
    energyLimit: 100,
    powerLimit: 5000,
    closingLimit: 300,
  };

  it('are charged with one time constant', () => {
    const lines = prechargeLines(sheet);
    // RC ln 20, and as much heat in the resistor as in the capacitors, less what is still missing.
    expect(by(lines, 'precharge_time').value).toBeCloseTo(0.04 * Math.log(20), 9);
    expect(by(lines, 'precharge_time').limit).toBe(0.5);
    expect(by(lines, 'precharge_energy').value).toBeCloseTo(0.5e-3 * 400 ** 2 * (1 - 0.05 ** 2), 6);
    expect(by(lines, 'precharge_power').value).toBeCloseTo(400 ** 2 / 40, 9);
    expect(by(lines, 'precharge_voltage').value).toBeCloseTo(400, 9);
    expect(by(lines, 'precharge_time').output.label).toBe('time to 95 % of the voltage');
    // 5 % of 400 V are missing, over 0.1 ohm.
    expect(by(lines, 'closing_current').value).toBeCloseTo(200, 6);
    expect(by(lines, 'closing_current').limit).toBe(300);
  });

  it('never get there against a bleed resistor that is too small', () => {
    const lines = prechargeLines({ ...sheet, bleed: 400, share: 0.95 });
    expect(by(lines, 'precharge_time').value).toBeNull();
    expect(told(lines, 'precharge_time')).toMatchObject({ verdict: 'fail' });
    expect(by(lines, 'precharge_time').note).toBe(
      'it never gets there: the bleed resistor of 400 ohm holds it at 363.6 V of the 380.0 V that are wished for; the load off until then, or a smaller resistor',
    );
    expect(by(lines, 'closing_current').note).toBe('it must not close');
  });

  it('are discharged by RC ln(V0/V1)', () => {
    const bleed = { voltage: 400, capacitance: 1e-3, bleed: 5000, limit: 'own', own: 60, within: 5 };
    const lines = dischargeLines(bleed);
    expect(by(lines, 'discharge_time').value).toBeCloseTo(5 * Math.log(400 / 60), 9);
    expect(by(lines, 'discharge_time').limit).toBe(5);
    expect(by(lines, 'discharge_energy').value).toBeCloseTo(0.5e-3 * 3600, 12);
    expect(by(lines, 'stored_energy').value).toBeCloseTo(80, 9);
    expect(by(lines, 'bleed_power').value).toBeCloseTo(32, 9);
    expect(by(lines, 'discharge_time').output.label).toBe('time to 60 V');
  });
});

describe('brakes', () => {
  it('take the whole motion of a stop', () => {
    const lines = brakeLines(testCar, 100 / 3.6, 6);
    const energy = by(lines, 'brake_energy');
    const [, kilograms = '', turning = ''] = /^(\d+) kg, and (\d+) kg/u.exec(energy.note ?? '') ?? [];
    const moved = Number(kilograms) + Number(turning);
    expect((energy.value ?? 0) / (0.5 * moved * (100 / 3.6) ** 2)).toBeCloseTo(1, 3);
    // v²/2a and v/a, and the mean power over it.
    expect(by(lines, 'brake_power').note).toBe('for 4.6 s and 64 m');
    expect(by(lines, 'brake_power').value).toBeCloseTo((energy.value ?? 0) / (100 / 3.6 / 6), 6);
    const share = testCar.body.frontShare + (6 / 9.80665) * (testCar.body.cgHeight / testCar.body.wheelbase);
    expect(by(lines, 'brake_front_share').value).toBeCloseTo(share, 3);
    expect(energy.output.label).toBe('energy of a stop from 100 km/h at 6 m/s²');
  });

  it('say where the rear wheels lift off', () => {
    const tall = { ...testCar, body: { ...testCar.body, cgHeight: 3 } };
    const lines = brakeLines(tall, 20, 9);
    expect(lines).toHaveLength(1);
    expect(told(lines, 'brake_energy')).toMatchObject({ value: null, verdict: 'figure' });
    expect(by(lines, 'brake_energy').note).toBe('at that deceleration the rear wheels lift off');
  });
});
