/** What the command line tells the shell. */
export const FINE = 0;
/** A cell failed, or a check does not hold. */
export const FAILED = 1;
/** Wrong usage, or a file that cannot be read or written. */
export const USAGE = 2;
/** A fault of axlewatt itself. */
export const INTERNAL = 3;

export const EXIT_CODES = `Exit codes:
  ${FINE}  all is well
  ${FAILED}  a cell failed, a result is not to be relied on, a check does not hold, or parts do not fit
  ${USAGE}  wrong usage, or a file cannot be read or written
  ${INTERNAL}  a fault of axlewatt itself
  130, 143  interrupted; what was done is kept`;

/** One line instead of a stack trace. */
export function lastResort(error: unknown): string {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return `axlewatt: a fault of axlewatt itself, please report it with the notebook: ${what.split('\n')[0] ?? ''}\n`;
}

/** Where a command writes, and how. */
export interface Terminal {
  /** One line or more, without the last line end. */
  out(text: string): void;
  err(text: string): void;
  readonly color: boolean;
  /** Characters in a line. */
  readonly width: number;
}
