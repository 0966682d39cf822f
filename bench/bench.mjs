// Measures and prints; never fails because something to compare with is missing. `--json` prints the numbers alone.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as again from './rows/again.mjs';
import * as builds from './rows/builds.mjs';
import * as cells from './rows/cells.mjs';
import * as drive from './rows/drive.mjs';
import * as example from './rows/example.mjs';
import * as help from './rows/help.mjs';
import * as launch from './rows/launch.mjs';
import * as live from './rows/live.mjs';
import * as physics from './rows/physics.mjs';
import * as studies from './rows/studies.mjs';

/**
 * @typedef {object} Setting
 * @property {string} root of the repository
 * @property {string} temp a folder that is removed afterwards
 * @property {(text: string) => void} note tells what could not be measured
 *
 * @typedef {object} Measured
 * @property {Record<string, number | null>} values by key, for `--json`
 * @property {string[]} head of the table
 * @property {string[][]} lines
 *
 * @typedef {object} Row
 * @property {string} title
 * @property {string[]} keys what `--json` tells as null where the whole row can not be measured
 * @property {(setting: Setting) => Measured | Promise<Measured>} measure
 */

/** One file for each thing measured. @type {Row[]} */
const ROWS = [launch, builds, physics, drive, help, example, again, cells, studies, live];

const asJson = process.argv.includes('--json');
const say = asJson ? () => {} : console.log;
const temp = mkdtempSync(join(tmpdir(), 'axlewatt-bench-'));
/** @type {Record<string, number | null>} */
const numbers = {};
try {
  for (const { title, keys, measure } of ROWS) {
    for (const key of keys) numbers[key] = null;
    say(`${title}\n`);
    try {
      const { values, head, lines } = await measure({
        root: fileURLToPath(new URL('..', import.meta.url)),
        temp,
        note: text => console.error(`  not measured: ${text}`),
      });
      Object.assign(numbers, values);
      say(table(head, lines));
    } catch (error) {
      console.error(`  not measured: ${error instanceof Error ? error.message : String(error)}`);
    }
    say('');
  }
} finally {
  rmSync(temp, { recursive: true, force: true });
}
if (asJson) console.log(JSON.stringify(numbers, rounded, 1));

/** @param {string[]} head @param {string[][]} lines */
function table(head, lines) {
  const widths = head.map((text, k) => Math.max(text.length, ...lines.map(line => line[k].length)));
  return [head, ...lines]
    .map(line => line.map((text, k) => (k === 0 ? text.padEnd(widths[k]) : text.padStart(widths[k]))).join('  '))
    .map(line => `  ${line}`)
    .join('\n');
}

/** Four digits are more than a timing is good for. */
function rounded(_key, value) {
  return typeof value === 'number' ? Number(value.toPrecision(4)) : value;
}
