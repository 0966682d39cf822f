/** Whoever takes the rows of a job, in order. */

/** A portion of rows, valid during the call only. */
export interface Rows {
  readonly first: number;
  readonly count: number;
  /** Row after row, one number per column. */
  readonly numbers: Float64Array;
  /** The code of each row, '' for none. */
  readonly codes: readonly string[];
}

export interface Consumer {
  /** Rows of a portion; the last one has what is left. */
  readonly every: number;
  /** Takes rows in order; 'enough' ends the job here, as complete. */
  take(rows: Rows): 'more' | 'enough';
}
