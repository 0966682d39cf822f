/** What a row is made of: its bytes are written by `record.ts`. */
export interface Layout {
  /** Numbers in a row. */
  readonly columns: number;
  /** Start value of the checksums. */
  readonly seed: number;
}
