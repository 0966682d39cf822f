// Writes what is generated from the tables of fields (docs/DEFAULTS.md, sizes of units, types of specifications); a test says when it is stale.
import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { bundled, root } from './bundled.mjs';

const { generated } = await bundled('tests/docs/generated.ts');
for (const [name, text] of generated()) {
  const file = path.join(root, name);
  await mkdir(path.dirname(file), { recursive: true });
  await writeFile(file, text);
}
