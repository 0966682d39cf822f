/**
 * A row as bytes, little-endian: row number (u32), bytes of the code (u32), the numbers (f64 each), the code (UTF-8), and a
 * CRC-32 over all of it, seeded by the job. The end of a complete file is a record of 12 bytes: 2^32 - 1, rows, CRC-32.
 */
import { crc32 } from 'node:zlib';
import type { Layout } from './layout.ts';

/** Marks the end instead of a row number. */
const END = 0xffff_ffff;
export const MOST_ROWS = END - 1;
export const END_BYTES = 12;
const MOST_CODE_BYTES = 1024;

/** Bytes of a row without a code. */
export function plainBytes({ columns }: Layout): number {
  return 12 + 8 * columns;
}

/** Bytes of the longest row. */
export function mostBytes(layout: Layout): number {
  return plainBytes(layout) + MOST_CODE_BYTES;
}

/** Rows being written into one growing block of bytes. */
export interface Records {
  /** @throws RangeError for a code that is too long. */
  add(row: number, numbers: Float64Array, code: string): void;
  /** All that was added; valid until the next row is added. */
  bytes(): Uint8Array;
}

export function createRecords(layout: Layout, rows: number): Records {
  let buffer = Buffer.alloc(Math.max(1, rows) * plainBytes(layout));
  let view = viewOf(buffer);
  let used = 0;
  const reserve = (bytes: number): void => {
    if (used + bytes <= buffer.length) return;
    const larger = Buffer.alloc(Math.max(2 * buffer.length, used + bytes));
    buffer.copy(larger, 0, 0, used);
    buffer = larger;
    view = viewOf(buffer);
  };
  return {
    add(row, numbers, code) {
      const codeBytes = code === '' ? 0 : Buffer.byteLength(code);
      if (codeBytes > MOST_CODE_BYTES) throw new RangeError(`a code of ${codeBytes} bytes; at most ${MOST_CODE_BYTES}`);
      reserve(plainBytes(layout) + codeBytes);
      const start = used;
      view.setUint32(start, row, true);
      view.setUint32(start + 4, codeBytes, true);
      let at = start + 8;
      for (let k = 0; k < layout.columns; k++, at += 8) setNumber(view, at, numbers[k] ?? Number.NaN);
      if (codeBytes > 0) at += buffer.write(code, at);
      view.setUint32(at, crc32(buffer.subarray(start, at), layout.seed), true);
      used = at + 4;
    },
    bytes: () => buffer.subarray(0, used),
  };
}

function viewOf(buffer: Buffer): DataView {
  return new DataView(buffer.buffer, buffer.byteOffset, buffer.length);
}

/** There are many NaN and engines differ in which they write: files shall not. */
function setNumber(view: DataView, at: number, value: number): void {
  if (Number.isNaN(value)) {
    view.setUint32(at, 0, true);
    view.setUint32(at + 4, 0x7ff8_0000, true);
  } else view.setFloat64(at, value, true);
}

export function endRecord(layout: Layout, rows: number): Buffer {
  const record = Buffer.alloc(END_BYTES);
  record.writeUInt32LE(END, 0);
  record.writeUInt32LE(rows, 4);
  record.writeUInt32LE(crc32(record.subarray(0, 8), layout.seed), 8);
  return record;
}

/** Whether the end of a file of so many rows stands at `at`. */
export function endsAt(bytes: Buffer, at: number, layout: Layout, rows: number): boolean {
  return bytes.subarray(at, at + END_BYTES).equals(endRecord(layout, rows));
}

/** Bytes of the good record of the row given that stands at `at`; 0 where there is none or only a part of one. */
export function goodBytes(bytes: Buffer, at: number, layout: Layout, row: number): number {
  if (at + plainBytes(layout) > bytes.length || bytes.readUInt32LE(at) !== row) return 0;
  const codeBytes = bytes.readUInt32LE(at + 4);
  if (codeBytes > MOST_CODE_BYTES) return 0;
  const size = plainBytes(layout) + codeBytes;
  if (at + size > bytes.length) return 0;
  const sum = crc32(bytes.subarray(at, at + size - 4), layout.seed);
  return sum === bytes.readUInt32LE(at + size - 4) ? size : 0;
}

/** Bytes of the record at `at`, known to be good. */
export function recordBytes(bytes: Buffer, at: number, layout: Layout): number {
  return plainBytes(layout) + bytes.readUInt32LE(at + 4);
}

/** Reads the record at `at`, known to be good, into `numbers` from `into` on. */
export function readRecord(
  bytes: Buffer,
  at: number,
  layout: Layout,
  numbers: Float64Array,
  into: number,
): { code: string; size: number } {
  const codeBytes = bytes.readUInt32LE(at + 4);
  for (let k = 0; k < layout.columns; k++) numbers[into + k] = bytes.readDoubleLE(at + 8 + 8 * k);
  const codeAt = at + 8 + 8 * layout.columns;
  return {
    code: codeBytes === 0 ? '' : bytes.toString('utf8', codeAt, codeAt + codeBytes),
    size: plainBytes(layout) + codeBytes,
  };
}
