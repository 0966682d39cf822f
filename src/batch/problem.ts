/** What a user can mend about a long run: another file in the way, a missing part, a full disk. */

/** The message says what is wrong and what to do about it. */
export class BatchProblem extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'BatchProblem';
  }
}

/** The reason that the operating system gives, in one line. */
export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** A file that holds the rows of another job. */
export class OtherJob extends BatchProblem {}
