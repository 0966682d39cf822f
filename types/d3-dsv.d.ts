/** The part of d3-dsv 3.0.2 that is used, written by hand: the package ships no types. */
declare module 'd3-dsv' {
  export function dsvFormat(delimiter: string): {
    /** Calls `row` for every line, blank ones as `['']`; what it returns is gathered unless it is null. */
    parseRows<T>(text: string, row: (fields: string[], index: number) => T | null): T[];
  };
}
