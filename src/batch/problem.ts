/** What a user can mend about a long run: another file in the way, a missing part, a full disk. */

/** The message says what is wrong and what to do about it. */
export class BatchProblem extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'BatchProblem';
  }
}

const REASONS: { readonly [code: string]: string } = {
  EACCES: 'not permitted',
  EDQUOT: 'the disk is full',
  EEXIST: 'there is something of that name',
  EFBIG: 'larger than files may be here',
  EISDIR: 'it is a folder',
  ELOOP: 'symbolic links lead nowhere',
  ENOENT: 'no such file or folder',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'there is a file where a folder should be',
  EPERM: 'not permitted',
  EROFS: 'it can only be read there',
};

/** The reason that the operating system gives, in words. */
export function reasonOf(error: unknown): string {
  return REASONS[codeOf(error)] ?? (error instanceof Error ? error.message : String(error));
}

/** The code of an error of the operating system, such as `ENOENT`; '' for any other. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

/** A file that holds the rows of another job. */
export class OtherJob extends BatchProblem {}
