/** Tells when files or folders change: at once by what the system tells of their folders, at the latest with the next look at them. */
import { type FSWatcher, readdirSync, statSync, watch } from 'node:fs';
import { dirname } from 'node:path';
import { isFolder } from '../folder-notebooks.ts';

export interface Watch {
  /** From now on these are looked after, and no others; one that is not there yet may come. */
  look(paths: ReadonlySet<string>): void;
  close(): void;
}

/** ms after which a file that still changes is looked at again: editors write in several goes. */
const SETTLES = 15;

/** ms that an empty file has to be filled: it is emptied before it is written. */
const FILLS = 250;

/** ms between two looks where the system tells nothing, as on folders of other machines. */
const LOOKS = 1000;

/** @param changed is told of the paths that are not as they were. */
export function createWatch(changed: (paths: readonly string[]) => void): Watch {
  const watched = new Map<string, string>();
  const folders = new Map<string, FSWatcher>();
  let timer: NodeJS.Timeout | undefined;

  /** Tells of what stands still again. */
  function see(before: ReadonlyMap<string, string>, since: number): void {
    const now = new Map([...watched.keys()].map(path => [path, signOf(path)]));
    const different = [...now].filter(([path, sign]) => watched.get(path) !== sign);
    if (different.length === 0) return;
    const moving = different.some(([path, sign]) => before.get(path) !== sign);
    const empty = different.some(([, sign]) => sign.startsWith('0:') || sign === NOTHING);
    if (moving || (empty && performance.now() - since < FILLS)) {
      timer = setTimeout(() => see(now, since), SETTLES);
      return;
    }
    for (const [path, sign] of different) watched.set(path, sign);
    changed(different.map(([path]) => path));
  }

  function soon(): void {
    clearTimeout(timer);
    timer = setTimeout(() => see(new Map(watched), performance.now()), 1);
  }

  const looks = setInterval(soon, LOOKS);
  return {
    look(paths) {
      for (const path of watched.keys()) if (!paths.has(path)) watched.delete(path);
      for (const path of paths) if (!watched.has(path)) watched.set(path, signOf(path));
      const wanted = new Set([...paths].map(path => (isFolder(path) ? path : dirname(path))));
      for (const [folder, watcher] of folders) {
        if (wanted.has(folder)) continue;
        watcher.close();
        folders.delete(folder);
      }
      for (const folder of wanted) {
        if (folders.has(folder)) continue;
        const watcher = watching(folder, soon);
        if (watcher === null) continue;
        folders.set(folder, watcher);
        // A folder that is taken away: the looks go on.
        watcher.on('error', () => {
          watcher.close();
          folders.delete(folder);
        });
      }
    },
    close() {
      clearInterval(looks);
      clearTimeout(timer);
      for (const watcher of folders.values()) watcher.close();
    },
  };
}

/** Null where the system can not tell: then looks have to do. */
function watching(folder: string, told: () => void): FSWatcher | null {
  try {
    return watch(folder, told);
  } catch {
    return null;
  }
}

const NOTHING = 'nothing';

/** What changes with a file, or with the names in a folder. */
function signOf(path: string): string {
  try {
    const { size, mtimeMs, ino } = statSync(path);
    return isFolder(path) ? `names:${readdirSync(path).join('/')}` : `${size}:${mtimeMs}:${ino}`;
  } catch {
    return NOTHING;
  }
}
