/** The tractive-force diagram: what the drive could push at each speed, what the tyres take, what holds against it. */
import type { Result, Series } from '../runs/result.ts';
import type { System } from '../units.ts';
import { columnHeading, scaleOf, type Scale, unitText, written } from '../units/rounding.ts';
import { simplify, type Point } from './kit/simplify.ts';
import { COLOUR, INK, QUIET } from './kit/palette.ts';
import { CHARACTER, NARROW, plotWidth } from './kit/layout.ts';
import { namedLines } from './kit/named-lines.ts';
import { leftAxis, lineKey } from './kit/views.ts';
import { pictureOf, type PictureTable, THEME } from './kit/picture.ts';
import { summaryNumber, thin } from './kit/series.ts';
import { numbers } from '../runs/series.ts';

const ROWS = 14;
const LOST = 'drive force that grip takes away';

/** The lines, in the order of the key: name, column, colour, dash. */
const CURVES = [
  { name: 'the drive could push', of: 'drive', key: 'drive_force_N', colour: INK, dash: [1, 0] },
  { name: 'the driven tyres can take', of: 'grip', key: 'grip_force_N', colour: COLOUR.grip, dash: [7, 3] },
  { name: 'resistance of road and air', of: 'resistance', key: 'resistance_N', colour: QUIET, dash: [2, 2] },
] as const;

/** The picture of a launch: needs the series `traction`. */
export const traction = pictureOf('Force at the driven wheels over speed', { caption, spec, table });

interface Row {
  readonly speed: number;
  readonly drive: number;
  readonly grip: number;
  readonly resistance: number;
}

interface Forces {
  readonly speed: Scale;
  readonly force: Scale;
  readonly points: readonly Row[];
}

/** The series in display units. */
function forces(series: Series, system: System): Forces {
  const { speed_m_s: speed, drive_force_N: drive } = series;
  if (speed === undefined || drive === undefined) throw new Error('the series traction lacks speed or drive force');
  const [v, f] = [scaleOf(speed, system), scaleOf(drive, system)];
  const column = (key: string, scale: Scale): ((i: number) => number) => {
    const values = numbers(series, key);
    return i => (values[i] ?? 0) * scale.factor + scale.offset;
  };
  const at = {
    speed: column('speed_m_s', v),
    drive: column('drive_force_N', f),
    grip: column('grip_force_N', f),
    resistance: column('resistance_N', f),
  };
  const points = Array.from(numbers(series, 'speed_m_s'), (_, i) => {
    return { speed: at.speed(i), drive: at.drive(i), grip: at.grip(i), resistance: at.resistance(i) };
  });
  return { speed: v, force: f, points };
}

function spec(result: Result, system: System, width: number): object {
  const narrow = width < NARROW;
  const { speed, force, points } = forces(result.series['traction'] ?? {}, system);
  const across = plotWidth(width);
  const height = narrow ? 210 : 290;
  const line = (of: 'drive' | 'grip' | 'resistance'): readonly Point[] =>
    simplify(points.map(point => ({ x: point.speed, y: point[of] })));
  const long = CURVES.flatMap(curve => line(curve.of).map(point => ({ ...point, what: curve.name })));
  const x = {
    field: 'x',
    type: 'quantitative',
    scale: { domain: [0, points.at(-1)?.speed ?? 1], nice: false },
    axis: { title: `speed, ${unitText(speed.unit)}`, tickCount: narrow ? 5 : 10 },
  };
  const y = { field: 'y', type: 'quantitative', axis: leftAxis(6) };
  const legend = lineKey(
    CURVES.map(curve => curve.name),
    width,
  );
  return {
    config: THEME,
    width: across,
    height,
    title: { text: `Force, ${unitText(force.unit)}` },
    layer: [
      {
        data: { values: lostArea(points) },
        mark: { type: 'area', color: COLOUR.grip, opacity: 0.22 },
        encoding: { x, y, y2: { field: 'top' } },
      },
      {
        data: { values: long },
        mark: { type: 'line', strokeWidth: 2.25 },
        encoding: {
          x,
          y,
          ...namedLines(
            CURVES.map(c => c.name),
            legend,
            CURVES,
          ),
        },
      },
      lostLabel(points, across, height),
    ],
  };
}

/** The part between grip and drive force, closed by the points at which the two meet. */
function lostArea(points: readonly Row[]): readonly { readonly x: number; readonly y: number; readonly top: number }[] {
  const area: { x: number; y: number; top: number }[] = [];
  points.forEach((row, i) => {
    const over = row.drive - row.grip;
    if (over > 0) area.push({ x: row.speed, y: row.grip, top: row.drive });
    const next = points[i + 1];
    if (next === undefined || over > 0 === next.drive > next.grip) return;
    const part = over / (over - (next.drive - next.grip));
    const level = row.grip + part * (next.grip - row.grip);
    area.push({ x: row.speed + part * (next.speed - row.speed), y: level, top: level });
  });
  if (area.length === 0) return area;
  const corners = [simplify(area), simplify(area.map(({ x, top }) => ({ x, y: top })))].flat();
  const kept = new Set(corners.map(point => point.x));
  return area.filter(point => kept.has(point.x));
}

/** The words inside the shaded part, where there is room for them. */
function lostLabel(points: readonly Row[], across: number, height: number): object {
  const top = Math.max(...points.map(point => Math.max(point.drive, point.grip)));
  const fastest = points.at(-1)?.speed ?? 1;
  const lost = points.filter(point => point.drive > point.grip);
  const low = lost[0]?.speed ?? 0;
  const roomFor = (need: number): Row[] => {
    const right = low + (need / across) * fastest;
    return lost.filter(point => point.speed <= right);
  };
  const fits = (need: number, lines: number): boolean => {
    const under = roomFor(need + 12);
    const last = lost.at(-1)?.speed ?? 0;
    const gap = Math.min(...under.map(point => point.drive)) - Math.max(...under.map(point => point.grip));
    return under.length > 1 && last - low > ((need + 12) / across) * fastest && (gap / top) * height > lines * 16 + 4;
  };
  const lines =
    [[LOST], ['drive force that', 'grip takes away'], ['lost to grip']].find(text =>
      fits((text[0] ?? '').length * CHARACTER, text.length),
    ) ?? null;
  const under = roomFor(lines === null ? 0 : (lines[0] ?? '').length * CHARACTER + 12);
  const middle = (Math.min(...under.map(p => p.drive)) + Math.max(...under.map(p => p.grip))) / 2;
  const values = lines === null ? [] : [{ x: low, y: middle }];
  return {
    data: { values },
    mark: {
      type: 'text',
      align: 'left',
      baseline: 'middle',
      dx: 8,
      dy: lines?.length === 2 ? -7 : 0,
      lineHeight: 15,
      color: '#7c2e06',
      fontWeight: 600,
      text: lines ?? '',
    },
    encoding: { x: { field: 'x', type: 'quantitative' }, y: { field: 'y', type: 'quantitative' } },
  };
}

function caption(result: Result, system: System): string {
  const { speed, force, points } = forces(result.series['traction'] ?? {}, system);
  const strongest = points.reduce<Row | null>(
    (best, row) => (best === null || row.drive > best.drive ? row : best),
    null,
  );
  if (strongest === null) return '';
  const beginning = `The drive could push up to ${written(strongest.drive, force.unit)} where the driven tyres can take ${written(strongest.grip, force.unit)}.`;
  return beginning + lostWords(result, lostArea(points).at(-1)?.x ?? null, speed) + topWords(result, speed);
}

/** What is shaded; `end` is where the shade ends, in display units, null without one. */
function lostWords(result: Result, end: number | null, speed: Scale): string {
  if (end === null) return ' The drive stays below what the tyres can take at every speed: grip takes nothing away.';
  const words = ` The shaded part is ${LOST}; it ends at ${written(end, speed.unit, 0)}.`;
  const free = summaryNumber(result, 'grip_free_speed');
  const left = free === null ? end : free * speed.factor;
  // The diagram is one of steady speeds; in the run slip, spin-up and a sagging pack move the end of the grip limit.
  if (Math.abs(left - end) < 0.02 * end) return words;
  return `${words} In the run itself, with slip, turning parts and a sagging pack, grip stops mattering at ${written(left, speed.unit, 0)}.`;
}

function topWords(result: Result, speed: Scale): string {
  const top = summaryNumber(result, 'top_speed');
  if (top === null) return '';
  const at = written(top * speed.factor, speed.unit, 0);
  // A motor that may turn no faster leaves force over.
  return result.summary['top_speed_limiter'] === 'motor speed'
    ? ` The motor may turn no faster than at ${at}: that is the top speed.`
    : ` Resistance uses all of it up at ${at}: that is the top speed.`;
}

function table(result: Result, system: System): PictureTable {
  const { speed, force, points } = forces(result.series['traction'] ?? {}, system);
  const unit = force.unit;
  return {
    columns: [
      columnHeading('speed', speed.unit),
      ...CURVES.map(curve => columnHeading(curve.name, unit)),
      columnHeading('lost to grip', unit),
    ],
    rows: thin(points.length, ROWS).flatMap(i => {
      const point = points[i];
      if (point === undefined) return [];
      const row = [point.drive, point.grip, point.resistance, Math.max(0, point.drive - point.grip)];
      return [[written(point.speed, '1', 0), ...row.map(value => written(value, '1', unit === 'kN' ? 2 : 0))]];
    }),
  };
}
