/** Reads files for a notebook, and only from the notebook's own folder. */
import { closeSync, constants, fstatSync, openSync, readFileSync, realpathSync } from 'node:fs';
import { dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { UnreadableFile } from './unreadable-file.ts';

/** Bytes above which a file is refused. */
export const LARGEST_FILE = 32 * 1024 * 1024;

/** Text of a file; throws `UnreadableFile` for a folder, a device, a file that is missing or too large. */
export function readTextFile(path: string, shown: string = path): string {
  let file: number;
  try {
    // Without O_NONBLOCK, opening a named pipe would wait for ever.
    file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  } catch (error) {
    throw new UnreadableFile(`cannot read "${shown}": ${reason(error)}`);
  }
  try {
    const stat = fstatSync(file);
    if (!stat.isFile()) throw new UnreadableFile(`cannot read "${shown}": it is no ordinary file`);
    if (stat.size > LARGEST_FILE) {
      throw new UnreadableFile(`cannot read "${shown}": ${stat.size} bytes, more than the ${LARGEST_FILE} allowed`);
    }
    return readFileSync(file, 'utf8');
  } finally {
    closeSync(file);
  }
}

/** Text of a notebook; throws `UnreadableFile`, also for what is no text: a picture, a file in another encoding. */
export function readNotebook(path: string): string {
  const text = readTextFile(path);
  const wrong = /[\0\ufffd]/.exec(text);
  if (wrong === null) return text;
  const line = text.slice(0, wrong.index).split(/\r\n|\r|\n/).length;
  throw new UnreadableFile(`cannot read "${path}": line ${line} is no UTF-8 text; save the notebook as UTF-8`);
}

/**
 * A reader for the files a notebook names, relative to its folder. Refused: absolute paths, paths that lead out of the
 * folder, also through symbolic links (the real path decides), and files above `LARGEST_FILE`.
 */
export function folderReader(notebook: string): (path: string) => string {
  return path => {
    if (path === '' || isAbsolute(path) || path.includes('\0') || /^[A-Za-z][A-Za-z0-9+.-]*:/.test(path)) {
      throw new UnreadableFile(`cannot read "${path}": only paths relative to the notebook are allowed`);
    }
    let folder: string;
    let real: string;
    try {
      folder = realpathSync(dirname(resolve(notebook)));
      real = realpathSync(resolve(folder, path));
    } catch (error) {
      throw new UnreadableFile(`cannot read "${path}": ${reason(error)}`);
    }
    const inside = relative(folder, real);
    if (inside === '' || inside === '..' || inside.startsWith(`..${sep}`) || isAbsolute(inside)) {
      throw new UnreadableFile(`cannot read "${path}": it lies outside the folder of the notebook`);
    }
    const text = readTextFile(real, path);
    if (text.startsWith('PK\u0003\u0004') || text.includes('\0')) {
      throw new UnreadableFile(
        `cannot read "${path}": it is a spreadsheet or another binary file; save it as CSV in UTF-8`,
      );
    }
    return text;
  };
}

function reason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'no such file';
  if (code === 'EACCES' || code === 'EPERM') return 'not permitted';
  if (code === 'EISDIR') return 'it is a folder';
  if (code === 'ELOOP') return 'symbolic links go round in a circle';
  return code === '' ? String(error) : code;
}
