/** What a page that is served while its notebook is edited knows of itself. Plain JSON. */

export interface OpenData {
  /** Of this page, to ask whether there is a newer one. */
  readonly edition: string;
  /** Ids of the sections of cells that are still worked out: what stood there before is shown until then. */
  readonly late: readonly string[];
}

/** What its server tells. */
export interface News {
  readonly edition: string;
  /** Why there is no newer page; '' where all is well. */
  readonly trouble: string;
  /** Whether something is being worked out. */
  readonly busy: boolean;
}

export const OPEN_DATA = 'axlewatt-open';
/** Of the address of a page, for its news. */
export const NEWS = '?news';
/** Of the address that tells what a reader sees: `?looks=slim,cell-3-speed`. */
export const LOOKS = '?looks=';
export const SLIM = 'slim';
