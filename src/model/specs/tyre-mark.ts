/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** What is marked on a tyre. SI units throughout. */
export type TyreMarkSpec = {
  /** The text on the side wall, such as "155/80 R 13 79T"; gives index and symbol. */
  readonly size?: string;
  /** Load index. A pure number, 60 to 126. Left out, it is from the text on the side wall; not known when it has none. */
  readonly loadIndex?: number;
  /** Speed symbol; left out: from the side wall. */
  readonly speedSymbol?:
    | 'B'
    | 'C'
    | 'D'
    | 'E'
    | 'F'
    | 'G'
    | 'J'
    | 'K'
    | 'L'
    | 'M'
    | 'N'
    | 'P'
    | 'Q'
    | 'R'
    | 'S'
    | 'T'
    | 'U'
    | 'H'
    | 'V'
    | 'W'
    | 'Y';
};
