// Writes docs/DEFAULTS.md from the tables of fields; the test beside its source says when it is stale.
import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { bundled, root } from './bundled.mjs';

const { defaultsPage } = await bundled('tests/docs/defaults-page.ts');
await writeFile(path.join(root, 'docs', 'DEFAULTS.md'), defaultsPage());
