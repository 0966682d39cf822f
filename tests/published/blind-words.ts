/** A model beside what the records tell by themselves, in the words of docs/PROOF.md. */
import { bootstrapDifference, isNoise } from './error-statistics.ts';

const FIGURES = [
  ['mean', 'mean size'],
  ['rms', 'rms'],
  ['median', 'median size'],
  ['ninetieth', '90 % within'],
] as const;

/** A table: by how much the errors of axlewatt are smaller or larger than those of a blind fit, and whether that is noise. */
export function againstBlind(name: string, own: readonly number[], blind: readonly number[]): readonly string[] {
  const points = (share: number): string => (100 * share).toFixed(1);
  return [
    `axlewatt less ${name}, in points of per cent; in brackets nine of ten sets of records drawn from these with putting back. Where 0`,
    'lies between the ends, the difference is noise.',
    '',
    '| | difference | |',
    '|---|---:|---|',
    ...FIGURES.map(([figure, words]) => {
      const difference = bootstrapDifference(own, blind, figure);
      const { value, low, high } = difference;
      const verdict = isNoise(difference) ? 'noise' : value < 0 ? 'axlewatt is nearer' : `${name} is nearer`;
      return `| ${words} | ${points(value)} [${points(low)}, ${points(high)}] | ${verdict} |`;
    }),
  ];
}
