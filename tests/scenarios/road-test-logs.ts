/**
 * The logs of scenarios/road-test.md: from a car that is known, with noise. `AXLEWATT_WRITE=1 npx vitest run tests/scenarios/road-test`
 * writes them anew.
 */
import { nth } from '../../src/columns.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { numbers } from '../../src/runs/series.ts';
import { CALM, csvOf, type Day, normals, runsOn } from '../fit/coast-logs.ts';

/** What the program knew and the notebook has to find: N, N s/m, N s^2/m^2 on the day, W, N m. */
export const TRUTH = { terms: [128, 0.9, 0.415] as const, power: 51_500, torque: 146 };

const DAY: Day = {
  ...CALM,
  terms: TRUTH.terms,
  moved: 1081,
  rate: 1,
  noise: 0.05,
  from: 105,
  to: 14,
  pairs: 3,
  wind: 1.2,
  windScatter: 0.2,
  gusts: 0.12,
  slope: 0.002,
  warmth: 0.004,
};

/** The saloon as the notebook writes it, with what is true of it. */
const saloon = (text: string): string => {
  const cells = ['weigh plan', 'part its_tyres', 'car saloon'].map(head => {
    const found = new RegExp(`\`\`\`yaml ${head}\\n[\\s\\S]*?\\n\`\`\`\\n`, 'u').exec(text)?.[0];
    if (found === undefined) throw new Error(`the notebook has no ${head}`);
    return found;
  });
  const [f0, f1, f2] = TRUTH.terms;
  const truth = [
    '```yaml car truth',
    'from: saloon',
    `road_load: { f0: ${f0} N, f1: ${f1} N s/m, f2: ${f2} N s^2/m^2, test_mass: 1047 kg, temperature: 14 degC, pressure: 98.8 kPa }`,
    `drive: { unit: { peak_power: ${TRUTH.power} W, peak_torque: ${TRUTH.torque} N m, torque_rise: 0.18 s, power_at_top: 0.87 } }`,
    '```',
    '```yaml launch t',
    'car: truth',
    'to: 106 km/h',
    'temperature: 14 degC',
    'altitude: 210 m',
    '```',
  ];
  return `${cells.join('\n')}\n${truth.join('\n')}\n`;
};

/** @param notebook text of the example. */
export function roadTestLogs(notebook: string): ReadonlyMap<string, string> {
  const normal = normals(1967);
  const { there, back } = runsOn(DAY, normal);
  const logs = new Map<string, string>();
  there.forEach((log, i) => logs.set(`there-${i + 1}.csv`, csvOf(log)));
  back.forEach((log, i) => logs.set(`back-${i + 1}.csv`, csvOf(log)));
  const outcome = runNotebook(saloon(notebook), { file: 'truth.md' });
  const launch = outcome.blocks.flatMap(block =>
    block.kind === 'cell' && block.cell === 'launch' ? [block.result] : [],
  )[0];
  const time = launch?.series['time'];
  if (time === undefined) throw new Error(outcome.problems.map(({ message }) => message).join('; '));
  const [t, v] = [numbers(time, 'time_s'), numbers(time, 'speed_m_s')];
  const at = (s: number): number => {
    if (s <= nth(t, 0)) return 0;
    const after = t.findIndex(each => each > s);
    const k = after < 0 ? t.length - 1 : after;
    return nth(v, k - 1) + ((s - nth(t, k - 1)) / (nth(t, k) - nth(t, k - 1))) * (nth(v, k) - nth(v, k - 1));
  };
  for (let run = 1; run <= 3; run++) {
    const zero = 1.6 + 0.1 * run;
    const rows: [number, number][] = [];
    for (let k = 0; k < 600 && (rows.at(-1)?.[1] ?? 0) < 104 / 3.6; k++) {
      const s = k / 10;
      const speed = (at(s - zero) + at(s - zero - 0.05) + at(s - zero - 0.1)) / 3;
      rows.push([s, Math.max(0, speed + (speed > 0 ? 0.05 : 0.01) * normal())]);
    }
    const log = { time: Float64Array.from(rows, ([s]) => s), speed: Float64Array.from(rows, ([, speed]) => speed) };
    logs.set(`launch-${run}.csv`, csvOf(log));
  }
  return new Map(
    [...logs].map(([name, text]) => [name, `# Invented: made by tests/scenarios/road-test-logs.ts\n${text}`]),
  );
}
