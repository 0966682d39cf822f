// Runs every check against an outside source and writes docs/PROOF.md.
//
//   node build/proof.mjs           writes the page; exit code 1 when a check does not hold
//   node build/proof.mjs --check   writes nothing; exit code 1 when the page is stale or a check does not hold
//   node build/proof.mjs --json    prints the rows as JSON; exit code 1 when a check does not hold
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { bundled, root } from './bundled.mjs';

const page = path.join(root, 'docs', 'PROOF.md');

async function main(options) {
  const unknown = options.find(option => !['--json', '--check'].includes(option));
  if (unknown !== undefined) {
    console.error(`unknown option ${unknown}; known are --json and --check`);
    return 2;
  }
  const { proofPage, proofRows } = await bundled('tests/published/proof.ts');
  if (options.includes('--json')) {
    const rows = proofRows();
    console.log(JSON.stringify(rows, null, 2));
    return rows.every(row => row.holds !== row.missed) ? 0 : 1;
  }
  const { text, failed } = proofPage();
  if (failed > 0) console.error(`${failed} checks do not hold`);
  if (!options.includes('--check')) {
    await writeFile(page, text);
    return failed > 0 ? 1 : 0;
  }
  const stale = (await readFile(page, 'utf8').catch(() => '')) !== text;
  if (stale) console.error('docs/PROOF.md is stale: run `npm run proof`');
  return stale || failed > 0 ? 1 : 0;
}

process.exitCode = await main(process.argv.slice(2));
