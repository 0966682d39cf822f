/** What was mended in a log, counted, with the first line concerned. */

export type RepairKind =
  | 'missing'
  | 'cut off'
  | 'duplicate'
  | 'outlier'
  | 'stand-still'
  | 'negative'
  | 'gap'
  | 'parked'
  | 'alone'
  | 'resampled'
  | 'smoothed'
  | 'altitude';

export interface Repair {
  readonly kind: RepairKind;
  /** Rows, gaps or stretches concerned. */
  readonly count: number;
  /** 1-based line of the first of them. */
  readonly line: number;
  /** A sentence without a full stop that names what was done. */
  readonly text: string;
}

/** Counts what is repaired while a log is read. */
export interface Tally {
  /** Notes one more; the text is worked out at the end, from the count. */
  note(kind: RepairKind, line: number, text: (count: number) => string): void;
  readonly repairs: readonly Repair[];
}

export function openTally(): Tally {
  const found = new Map<RepairKind, { count: number; line: number; text: (count: number) => string }>();
  return {
    note(kind, line, text) {
      const known = found.get(kind);
      found.set(kind, { count: (known?.count ?? 0) + 1, line: known?.line ?? line, text });
    },
    get repairs() {
      return [...found].map(([kind, { count, line, text }]) => ({ kind, count, line, text: text(count) }));
    },
  };
}

/** `1 row`, `3 rows`. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
