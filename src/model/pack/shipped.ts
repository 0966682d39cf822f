/** Generic packs: shipped cells in series and parallel. */
import { cells } from './cells.ts';
import type { CellPart, PackPart } from '../parts/part.ts';

function cell(name: string): CellPart {
  const found = cells.find(part => part.name === name);
  if (found === undefined) throw new Error(`no shipped cell ${name}`);
  return found;
}

function pack(name: string, title: string, cellName: string, series: number, parallel: number): PackPart {
  const part = cell(cellName);
  return {
    kind: 'pack',
    name,
    title,
    values: { cell: part.values, series, parallel },
    spreads: {},
    source: `an arrangement of ${cellName}, no source of its own; the cell: ${part.source}`,
  };
}

export const packs: readonly PackPart[] = [
  pack('pack_nmc_96s1p_60ah', 'NMC, 96 in series, 60 Ah, about 21 kWh', 'cell_nmc_60ah', 96, 1),
  pack(
    'pack_nmc_96s1p_60ah_module',
    'NMC in older modules, 96 in series, 60 Ah, about 21 kWh',
    'cell_nmc_60ah_module',
    96,
    1,
  ),
  pack('pack_nmc_96s2p_60ah', 'NMC, 96 in series and 2 in parallel, 120 Ah, about 43 kWh', 'cell_nmc_60ah', 96, 2),
  pack(
    'pack_pouch_96s2p_27ah',
    'Pouch cells, 96 in series and 2 in parallel, 54 Ah, about 20 kWh',
    'cell_pouch_27ah',
    96,
    2,
  ),
  pack('pack_nca_96s20p_18650', 'NCA, 96 in series and 20 in parallel, 64 Ah, about 23 kWh', 'cell_nca_18650', 96, 20),
  pack('pack_lfp_104s1p_100ah', 'LFP, 104 in series, 100 Ah, about 34 kWh', 'cell_lfp_100ah', 104, 1),
];
