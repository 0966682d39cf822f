/** Lines of one picture told apart by their field `what`: by colour and by dash, so that none hangs on colour alone. */
import { LINES } from './palette.ts';

/** How a line looks. */
export interface Look {
  readonly colour: string;
  readonly dash: readonly number[];
}

/** The channels of colour and dash with one key for both. @param looks of each name; where left out, those of the palette in turn. */
export function namedLines(
  names: readonly string[],
  legend: object | null,
  looks: readonly (Look | undefined)[] = LINES,
): { readonly color: object; readonly strokeDash: object } {
  const channel = (range: readonly unknown[]): object => ({
    field: 'what',
    type: 'nominal',
    sort: null,
    scale: { domain: names, range },
    legend,
  });
  return {
    color: channel(names.map((_, i) => looks[i]?.colour)),
    strokeDash: channel(names.map((_, i) => looks[i]?.dash)),
  };
}
