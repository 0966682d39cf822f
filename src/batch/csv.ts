/** The rows of a file as CSV, for other programs. */
import { closeSync, readSync } from 'node:fs';
import { csvField } from './csv-field.ts';
import { readHeader } from './header.ts';
import type { Stamp } from './job.ts';
import { BatchProblem } from './problem.ts';
import { openRegular } from './regular-file.ts';
import { readRecord } from './record.ts';
import { type Region, rowAt, scanRows } from './scan.ts';
import { replaceFile } from './atomic-write.ts';

/**
 * Writes the good rows of a file as RFC 4180 text: `row`, the columns of the job, `code`. Numbers read back as the same
 * numbers; what is not finite is an empty field.
 * @returns rows written; fewer than the job has for an unfinished file.
 * @throws BatchProblem where there are no rows, or a file cannot be read or written.
 */
export function exportCsv(store: string, target: string): number {
  const fd = openRegular(store);
  try {
    const header = readHeader(fd, store);
    if (header === null) throw new BatchProblem(`${store} has no rows yet`);
    const { stamp } = header;
    let rows = 0;
    replaceFile(target, put => {
      put(Buffer.from(`${['row', ...stamp.job.columns, 'code'].map(csvField).join(',')}\r\n`));
      for (const region of scanRows(fd, header.bytes, stamp)) {
        put(Buffer.from(linesOf(region, stamp, rows)));
        rows += region.rows;
      }
    });
    return rows;
  } finally {
    closeSync(fd);
  }
}

/** Whether a file begins as `exportCsv` has it: an older export may be written over. */
export function isExport(path: string): boolean {
  let fd = -1;
  try {
    fd = openRegular(path);
    const head = Buffer.alloc(1 << 16);
    const [line = ''] = head.toString('utf8', 0, readSync(fd, head, 0, head.length, 0)).split('\r\n', 1);
    return line.startsWith('row,') && line.endsWith(',code');
  } catch {
    return false;
  } finally {
    if (fd >= 0) closeSync(fd);
  }
}

/** @param place of the region's first row in its file. */
function linesOf({ bytes, rows }: Region, stamp: Stamp, place: number): string {
  const numbers = new Float64Array(stamp.layout.columns);
  let at = 0;
  let text = '';
  for (let k = 0; k < rows; k++) {
    const { code, size } = readRecord(bytes, at, stamp.layout, numbers, 0);
    text += `${rowAt(stamp, place + k)},${Array.from(numbers, number).join(',')},${csvField(code)}\r\n`;
    at += size;
  }
  return text;
}

/** ECMAScript writes the shortest digits that read back as the same number, but drops the sign of -0. */
function number(value: number): string {
  if (Object.is(value, -0)) return '-0';
  return Number.isFinite(value) ? String(value) : '';
}
