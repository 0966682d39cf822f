/** What a notebook waits for while it runs. */
import type { Job } from '../batch/job.ts';
import type { Table } from '../batch/table.ts';

/** Rows that a cell waits for. */
export interface RowsAsk {
  /** Name of the cell. */
  readonly cell: string;
  readonly job: Job;
  /** Whether they are worth a file, and can be shared out among machines. */
  readonly whole: boolean;
}

/** Asks for the rows of one job after the other; null for rows that are not done. */
export type Asking<T> = Generator<RowsAsk, T, Table | null>;

/** The same; null where others may be heard between two cells. */
export type Turning<T> = Generator<RowsAsk | null, T, Table | null>;

/** Of an AbortSignal what is asked of it; the type itself is not there without a browser or Node. */
export interface Ending {
  throwIfAborted(): void;
}
