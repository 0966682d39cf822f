/** What keeps a file from being read. It stands apart from the reader, which a browser does not have. */

/** Why a file cannot be read, in words for the user. */
export class UnreadableFile extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UnreadableFile';
  }
}
