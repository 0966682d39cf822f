/** The notebooks of a folder: Markdown files that have a cell. */
import { readdirSync, realpathSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { CELL_KINDS } from '../notebook/cells/registry.ts';
import { parseDocument } from '../notebook/document/document.ts';
import { readNotebook } from '../notebook/files/folder.ts';
import { UnreadableFile } from '../notebook/files/unreadable-file.ts';

export interface FoundNotebook {
  /** In its folder. */
  readonly name: string;
  readonly path: string;
  /** What it calls itself; its name where it can not be read. */
  readonly title: string;
}

/** Whether a path is a folder; false also where there is nothing. */
export function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}

/**
 * In the order of their names, without those in folders below it. A link that leads out of the folder is none of them.
 * @throws UnreadableFile
 */
export function notebooksIn(folder: string): readonly FoundNotebook[] {
  let names: readonly string[];
  try {
    names = readdirSync(folder).filter(name => /\.(?:md|markdown)$/iu.test(name) && !name.startsWith('.'));
  } catch (error) {
    throw new UnreadableFile(
      `cannot read the folder "${folder}": ${String(error instanceof Error && 'code' in error ? error.code : error)}`,
    );
  }
  return names.toSorted().flatMap(name => {
    const path = join(folder, name);
    const title = isInside(folder, path) ? titleOf(path) : null;
    return title === null ? [] : [{ name, path, title: title || name.replace(/\.[^.]*$/u, '') }];
  });
}

function isInside(folder: string, path: string): boolean {
  try {
    return dirname(realpathSync(path)) === realpathSync(folder) && statSync(path).isFile();
  } catch {
    return false;
  }
}

/** Null for a file without a cell. */
function titleOf(path: string): string | null {
  try {
    const { pieces, frontMatter, heading } = parseDocument(readNotebook(path), path, CELL_KINDS);
    return pieces.some(({ kind }) => kind === 'cell') ? frontMatter.title || heading : null;
  } catch (error) {
    // Somebody may be mending it: what is wrong is told when it is run.
    if (error instanceof UnreadableFile) return '';
    throw error;
  }
}

/** Files as they were named, and the notebooks of each folder in the place of its name. @throws UnreadableFile for a folder without any. */
export function namedNotebooks(named: readonly string[]): readonly string[] {
  return named.flatMap(path => {
    if (!isFolder(path)) return [path];
    const found = notebooksIn(path);
    if (found.length === 0) {
      throw new UnreadableFile(
        `no notebook in the folder "${path}": one is a file NAME.md with a cell in it, a fenced block that begins with \`\`\`yaml car NAME`,
      );
    }
    return found.map(each => each.path);
  });
}
