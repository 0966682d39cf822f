// Licences of the libraries whose code ends up in bundles.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const HEAD = 'This contains software by others, under these licences.\n';
const FILE = /^(?:licen[cs]e|copying|notice)(?:[.-].*)?$/iu;

/** Folder of the package that a module belongs to; null for our own. */
function packageOf(id) {
  const found = /^(.*[/\\]node_modules[/\\](?:@[^/\\]+[/\\])?[^/\\]+)[/\\]/u.exec(id.replace(/^\0/u, ''));
  return found?.[1] ?? null;
}

/** @param outputs of rolldown: what was made, with the modules in it. @returns one text: name, version, licence and notices of each package, equal texts once. */
export function notices(outputs) {
  const folders = new Set(
    outputs.flatMap(output => output.flatMap(chunk => Object.keys(chunk.modules ?? {}).map(packageOf))),
  );
  folders.delete(null);
  const known = new Map();
  for (const folder of folders) {
    const manifest = join(folder, 'package.json');
    if (!existsSync(manifest)) throw new Error(`${folder} has no package.json`);
    const { name, version, license } = JSON.parse(readFileSync(manifest, 'utf8'));
    const texts = readdirSync(folder)
      .filter(file => FILE.test(file))
      .toSorted()
      .map(file => readFileSync(join(folder, file), 'utf8').replaceAll('\r\n', '\n').trim());
    if (texts.length === 0 && typeof license !== 'string') throw new Error(`${name} says no licence`);
    const text = texts.join('\n\n');
    known.set(text, [...(known.get(text) ?? []), `${name} ${version} (${license})`]);
  }
  const parts = [...known].map(([text, names]) => `${names.toSorted().join('\n')}\n\n${text}`).toSorted();
  return `${[HEAD, ...parts].join('\n--------\n\n')}\n`;
}
