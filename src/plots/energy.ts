/** Where the energy went: bars that each begin where the one above ended, so that the last ends where the first does. */
import type { Ledger, Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { type Described, scaleOf, unitText, written } from '../units/rounding.ts';
import { COLOUR, HAIR, INK, QUIET } from './kit/palette.ts';
import { NARROW } from './kit/layout.ts';
import { type Picture, THEME } from './kit/picture.ts';

/** J from which energies are read in kWh. */
const LARGE = 10 * 3.6e6;

/** How the energies of a ledger are read: a launch in Wh, a charge or a range in kWh. */
export function energyUnit(ledger: Ledger): Described {
  const unit = sum(ledger.in) < LARGE ? 'Wh' : 'kWh';
  return { unit: 'J', display: { metric: unit, imperial: unit } };
}

/** Room for the names, px, and for the figure behind the bar. */
const NAMES = 150;
const FIGURES = 58;
const ROW = 24;
/** Share of what went in below which there is no bar to be seen; the table has it. */
const UNSEEN = 0.0005;

/** One line of the ledger. */
export interface Entry {
  readonly name: string;
  readonly side: 'in' | 'out' | 'stored';
  /** J. */
  readonly energy: number;
  /** Part of all that went in, 0 to 1; 0 when nothing did. */
  readonly share: number;
}

/** What is below nothing stands on the other side: down a hill the slope gives, and the cells take. The sums agree as before. */
export function turned({ in: given, out, stored, gap }: Ledger): Ledger {
  const gives: { [name: string]: number } = {};
  const takes: { [name: string]: number } = {};
  const keeps: { [name: string]: number } = { ...stored };
  for (const [name, energy] of Object.entries(given)) {
    if (energy >= 0) gives[name] = energy;
    else keeps[name.replace(/^out of /u, 'into ')] = -energy;
  }
  for (const [name, energy] of Object.entries(out)) {
    if (energy >= 0) takes[name] = energy;
    else gives[name === 'slope' ? 'down the slope' : name] = -energy;
  }
  return { in: gives, out: takes, stored: keeps, gap };
}

/** The entries of a ledger: what went in, what went out from the largest down, what is stored. */
export function entries(ledger: Ledger): readonly Entry[] {
  const total = sum(ledger.in);
  const side = (side: Entry['side']): Entry[] =>
    Object.entries(ledger[side]).map(([name, energy]) => ({
      name: words(name),
      side,
      energy,
      share: total > 0 ? energy / total : 0,
    }));
  return [...side('in'), ...side('out').toSorted((a, b) => b.energy - a.energy), ...side('stored')];
}

/** Sum of one side, J. */
export function sum(side: { readonly [name: string]: number }): number {
  return Object.values(side).reduce((total, energy) => total + energy, 0);
}

/** `packOhmic` or `pack_ohmic` as `pack ohmic`. */
function words(name: string): string {
  return name.replaceAll('_', ' ').replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
}

/** The picture of any run. */
export function energy(result: Result, system: System): Picture {
  const ledger = turned(result.ledger);
  const lines = entries(ledger);
  const scale = scaleOf(energyUnit(ledger), system);
  const unit = unitText(scale.unit);
  const total = sum(ledger.in) * scale.factor;
  const shown = (entry: Entry): string => written(entry.energy * scale.factor, '1');
  const gone = lines.filter(entry => entry.side === 'out');
  const kept = lines.filter(entry => entry.side === 'stored');
  return {
    title: 'Where the energy went',
    caption:
      (total > 0
        ? `Of ${written(total, scale.unit)} put in: ${[...kept, ...gone]
            .filter(entry => Math.abs(entry.share) >= 0.005)
            .map(told)
            .join(', ')}. `
        : `On the whole ${written(-total, scale.unit)} went back into the cells, so that nothing has a share of what was put in. `) +
      'Each bar begins where the one above it ends; the last must end below the end of the first, and it does to ' +
      `${closes(result.ledger.gap)}.`,
    spec: width =>
      spec(
        // Hills that cancel leave a rest of rounding, which is no source.
        lines.filter(({ side, share }) => Math.abs(share) >= UNSEEN || (side === 'in' && !(total > 0))),
        scale.factor,
        unit,
        width,
      ),
    table: {
      columns: ['', 'side', `energy, ${unit}`, 'share, %'],
      rows: lines.map(entry => [entry.name, SIDES[entry.side], shown(entry), written(100 * entry.share, '1', 1)]),
    },
  };
}

function told(entry: Entry): string {
  return `${written(100 * entry.share, '%')} ${entry.name}`;
}

/** The words for the sides. */
export const SIDES = { in: 'put in', out: 'gone', stored: 'stored' } as const;

/** `1 part in 2 000 000`, how well a ledger closes. */
export function closes(gap: number): string {
  const parts = Math.abs(gap) > 0 ? 1 / Math.abs(gap) : Infinity;
  if (parts > 1e12) return 'the last digit of the computer';
  const size = 10 ** Math.floor(Math.log10(parts));
  // One over 1e-5 is a trifle below 100,000.
  return `1 part in ${written(Math.floor((parts / size) * (1 + 1e-9)) * size, '1', 0)}`;
}

function spec(lines: readonly Entry[], factor: number, unit: string, width: number): object {
  const narrow = width < NARROW;
  const total = lines.filter(entry => entry.side === 'in').reduce((all, entry) => all + entry.energy, 0) * factor;
  let [filled, begun] = [0, 0];
  const bars = lines.map(entry => {
    const size = entry.energy * factor;
    const from = entry.side === 'in' ? filled : begun;
    if (entry.side === 'in') filled += size;
    else begun += size;
    return { name: entry.name, from, to: from + size, fill: FILL[entry.side], text: written(size, '1') };
  });
  const edges = [total, ...bars.flatMap(({ from, to }) => [from, to])];
  const plotWidth = width - FIGURES - 4 - (narrow ? 8 : NAMES);
  const x = {
    type: 'quantitative',
    scale: { domain: [Math.min(0, ...edges), Math.max(...edges)], nice: false },
    axis: null,
  };
  const row = { field: 'name', type: 'nominal', sort: null };
  const step = narrow ? ROW + 18 : ROW;
  return {
    config: THEME,
    width: plotWidth,
    height: { step },
    title: { text: `Energy, ${unit}`, dx: 0 },
    data: { values: bars },
    layer: [
      {
        data: { values: [{ at: total }] },
        mark: { type: 'rule', color: HAIR, strokeWidth: 1.5 },
        encoding: { x: { ...x, field: 'at' } },
      },
      {
        mark: { type: 'bar', height: 14, yOffset: narrow ? 9 : 0 },
        encoding: {
          y: {
            ...row,
            axis: narrow
              ? null
              : {
                  title: null,
                  domain: false,
                  ticks: false,
                  labelColor: INK,
                  labelLimit: 0,
                  labelPadding: 6,
                  minExtent: NAMES,
                  maxExtent: NAMES,
                },
          },
          x: { ...x, field: 'from' },
          x2: { field: 'to' },
          fill: { field: 'fill', type: 'nominal', scale: null },
        },
      },
      {
        mark: { type: 'text', align: 'left', baseline: 'middle', dx: 5, dy: narrow ? 9 : 0, color: INK },
        encoding: { y: row, x: { ...x, field: 'to' }, text: { field: 'text', type: 'nominal' } },
      },
      ...(narrow
        ? [
            {
              mark: { type: 'text', align: 'left', baseline: 'middle', x: 0, dy: -9, color: INK },
              encoding: { y: row, text: { field: 'name', type: 'nominal' } },
            },
          ]
        : []),
    ],
  };
}

/** Dark: came in; orange: lost; blue: kept. Each bar has its name beside it as well. */
const FILL = { in: QUIET, out: COLOUR.grip, stored: COLOUR['motor torque'] } as const;
