/** Values worked out by SciPy; the script that made them lies beside them. */
import { readFileSync } from 'node:fs';

interface Peer {
  readonly normal: { readonly quantile: [number, number][]; readonly cumulative: [number, number][] };
  readonly conditioned: {
    readonly value: number;
    readonly standard: number;
    readonly min: number | null;
    readonly max: number | null;
    readonly mean: number;
    readonly deviation: number;
    readonly quantiles: [number, number][];
  }[];
  readonly sobol: { readonly dimensions: number[]; readonly points: number[][] };
}

export const peer = JSON.parse(
  readFileSync(new URL('../published/peer/studies.json', import.meta.url), 'utf8'),
) as Peer;
