/** How many rows to order at once, by the time that earlier ones took. The rows come out the same whatever it says. */

/** What earlier batches still count for when another comes. */
const MEMORY = 0.5;
/** A batch is at most so many times the one before: the first rows of all tell little. */
const GROWTH = 4;
const MOST_BYTES = 1 << 20;

export interface ChunkSize {
  /** Seconds a row, as far as is known; 0 before the first batch. */
  readonly perRow: number;
  /** Rows of the next order: work of so many seconds. @param workers hands among which the rows left are shared out. */
  next(left: number, workers: number, seconds: number): number;
  learn(rows: number, seconds: number): void;
}

/** @param rowBytes size of a row, so that no order grows beyond a megabyte of answer. */
export function createChunkSize(rowBytes: number): ChunkSize {
  const most = Math.max(1, Math.floor(MOST_BYTES / rowBytes));
  let allRows = 0;
  let allSeconds = 0;
  let latest = 1;
  return {
    get perRow() {
      return allRows === 0 ? 0 : allSeconds / allRows;
    },
    next(left, workers, seconds) {
      // Towards the end smaller ones, so that all hands stop at about the same time.
      const fair = workers === 1 ? left : Math.ceil(left / (2 * workers));
      const wanted = allSeconds === 0 ? 1 : Math.floor((seconds * allRows) / allSeconds);
      return Math.max(1, Math.min(left, most, fair, wanted, latest * GROWTH));
    },
    learn(rows, seconds) {
      if (rows === 0) return;
      allRows = MEMORY * allRows + rows;
      allSeconds = MEMORY * allSeconds + seconds;
      latest = rows;
    },
  };
}
