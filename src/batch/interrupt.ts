/**
 * Ctrl-C while rows are done: the first one ends the work after the rows that are being done, the second one ends the process.
 * At all other times nobody listens, and the system ends the process at once: a cell without rows gives no way to be told.
 */

/** What of a process is needed. */
export interface Interruptible {
  on(signal: 'SIGINT' | 'SIGTERM', listener: () => void): unknown;
  off(signal: 'SIGINT' | 'SIGTERM', listener: () => void): unknown;
  exit(code: number): unknown;
}

export interface Interrupt {
  readonly signal: AbortSignal;
  /** Exit code of a process that was interrupted: 128 + number of the signal, as shells have it; 0 before. */
  readonly code: number;
  /** Listens to the signals while the work is done, and gives them back to the system. */
  during<T>(work: () => Promise<T>): Promise<T>;
}

const CODES = { SIGINT: 130, SIGTERM: 143 } as const;

/** @param say tells the person at the keyboard that the first one was heard. */
export function createInterrupt(on: Interruptible, say: (text: string) => void): Interrupt {
  const controller = new AbortController();
  let code = 0;
  const heard = (signal: 'SIGINT' | 'SIGTERM'): void => {
    if (code !== 0) {
      on.exit(CODES[signal]);
      return;
    }
    code = CODES[signal];
    say('stopping after the rows that are being done; once more to stop at once');
    controller.abort();
  };
  const interrupted = (): void => heard('SIGINT');
  const terminated = (): void => heard('SIGTERM');
  return {
    signal: controller.signal,
    get code() {
      return code;
    },
    async during(work) {
      on.on('SIGINT', interrupted);
      on.on('SIGTERM', terminated);
      try {
        return await work();
      } finally {
        // A signal that came during the last rows is told in the next turn: nobody shall miss it.
        await new Promise(resolve => setImmediate(resolve));
        on.off('SIGINT', interrupted);
        on.off('SIGTERM', terminated);
      }
    },
  };
}
