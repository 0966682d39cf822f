/** The bytes of a row are a promise to files that are there already. */
import { describe, expect, it } from 'vitest';
import { createRecords, endRecord, goodBytes, readRecord } from '../../src/batch/record.ts';

const layout = { columns: 2, seed: 0x0123_4567 };

/** CRC-32 bit by bit, as ITU-T V.42 defines it, going on from the CRC of what came before; shares nothing with zlib. */
function crc(bytes: Uint8Array, before = 0): number {
  let sum = ~before;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb8_8320 : 0);
  }
  return ~sum >>> 0;
}

function record(row: number, numbers: readonly number[], code = ''): Buffer {
  const records = createRecords(layout, 1);
  records.add(row, Float64Array.from(numbers), code);
  return Buffer.from(records.bytes());
}

describe('a record', () => {
  it('is row, length of the code, numbers, code, checksum', () => {
    // The check value of CRC-32 for the digits 1 to 9 is in every catalogue of checksums (from memory).
    expect(crc(Buffer.from('123456789'))).toBe(0xcbf4_3926);
    const body = Buffer.from('0a00000002000000000000000000f83f000000000000f87fc3bc', 'hex');
    const sum = Buffer.alloc(4);
    sum.writeUInt32LE(crc(body, layout.seed));
    expect(record(10, [1.5, Number.NaN], 'ü').toString('hex')).toBe(Buffer.concat([body, sum]).toString('hex'));
  });

  it('ends with a checksum over the end mark and the number of rows', () => {
    const body = Buffer.from('ffffffff40420f00', 'hex');
    const end = endRecord(layout, 1_000_000);
    expect(end.subarray(0, 8).equals(body)).toBe(true);
    expect(end.readUInt32LE(8)).toBe(crc(body, layout.seed));
  });

  it('has one NaN, whichever an evaluator made', () => {
    const odd = new Float64Array(new Uint32Array([1, 0xfff8_0000, 7, 0x7ff4_0000]).buffer);
    expect(odd).toEqual(new Float64Array([Number.NaN, Number.NaN]));
    const records = createRecords(layout, 1);
    records.add(0, odd, '');
    expect(Buffer.from(records.bytes()).equals(record(0, [Number.NaN, Number.NaN]))).toBe(true);
  });

  it('reads back, and no other row, no part of one and no row of another job is taken for it', () => {
    const bytes = Buffer.concat([record(3, [1 / 3, -0], 'why'), record(4, [5, 6])]);
    const size = goodBytes(bytes, 0, layout, 3);
    expect(size).toBe(12 + 16 + 3);
    const numbers = new Float64Array(2);
    expect(readRecord(bytes, 0, layout, numbers, 0)).toEqual({ code: 'why', size });
    expect(numbers).toEqual(new Float64Array([1 / 3, -0]));
    expect(goodBytes(bytes, size, layout, 4)).toBe(28);
    expect(goodBytes(bytes, 0, layout, 4)).toBe(0);
    expect(goodBytes(bytes, 0, { ...layout, seed: 1 }, 3)).toBe(0);
    for (let length = 0; length < size; length++) expect(goodBytes(bytes.subarray(0, length), 0, layout, 3)).toBe(0);
    for (let bit = 0; bit < 8 * size; bit++) {
      const flipped = Buffer.from(bytes.subarray(0, size));
      flipped[bit >> 3]! ^= 1 << (bit & 7);
      expect(goodBytes(flipped, 0, layout, 3), `bit ${bit}`).toBe(0);
    }
  });
});
