/** The size code on the side wall of a tyre, and the effective rolling radius that follows from it. */
import { LOAD_INDICES, loadOfIndex, speedOfSymbol } from './load-index.ts';

export interface TyreSize {
  /** m, section width. */
  readonly width: number;
  /** Height of the section over its width. */
  readonly aspect: number;
  /** m, rim diameter. */
  readonly rim: number;
  /** m, diameter of the free, unloaded tyre. */
  readonly freeDiameter: number;
  /** m: the distance rolled in one turn over 2 pi. */
  readonly effectiveRadius: number;
  readonly loadIndex?: number;
  readonly speedSymbol?: string;
}

/** What is wrong with a size code: where it starts (0-based), how long it is, and what should stand there. */
export class TyreSizeError extends Error {
  readonly offset: number;
  readonly length: number;
  readonly expected: string;
  constructor(offset: number, length: number, message: string, expected: string) {
    super(message);
    this.name = 'TyreSizeError';
    this.offset = offset;
    this.length = Math.max(1, length);
    this.expected = expected;
  }
}

const INCH = 0.0254;

/** A code without an aspect ratio means this one (tyre makers' tables of the 1970s: "165 R 15" is a 165/80 R 15). */
const OLD_ASPECT = 0.8;

/**
 * Distance rolled per turn over the free diameter of a radial tyre: 3.05 at 60 km/h (the rule of DIN 70020 and ETRTO, from
 * memory; a tyre maker's list of 1993 for three 13-inch sizes gives 3.046). The spread is the scatter of makers' lists,
 * common practice.
 */
const ROLLING_RULE = { circumferencePerDiameter: 3.05, standard: 0.02 } as const;

/** Metres that a tyre of this free diameter counts as radius, for speed and for force. */
export function effectiveRadius(freeDiameter: number): number {
  return (ROLLING_RULE.circumferencePerDiameter * freeDiameter) / (2 * Math.PI);
}

/**
 * Reads a metric size code of a radial tyre: `145/80R13`, `165 R 15` (aspect 80), `155 SR 13` (old way to write the speed
 * symbol), `P195/65 R 15 91H`, `205/55 ZR 16`, `175/70 R 14 C 95/93 T`. Spaces and case do not matter. Of two load indices the
 * first (single tyres) counts. Throws a TyreSizeError.
 */
export function readTyreSize(text: string): TyreSize {
  if (typeof text !== 'string')
    throw new TyreSizeError(0, 1, `${String(text)} is no size`, 'a text such as "145/80 R 13"');
  const scan = scanner(text);
  scan.take(/(?:P|LT)(?=\s*\d)/y);
  const width = scan.number(/\d+(?:\.\d+)?/y, 'section width in mm', 100, 400) / 1000;
  const aspect = scan.take(/\//y) === null ? OLD_ASPECT : scan.number(/\d+/y, 'aspect ratio in percent', 20, 100) / 100;
  const oldSymbol = radialMark(scan);
  const rim = scan.number(/\d+(?:\.5)?/y, 'rim diameter in inches', 10, 24) * INCH;
  scan.take(/C(?![A-Z])/y);
  const service = serviceDescription(scan);
  scan.take(/XL|EXTRA LOAD|REINFORCED/y);
  scan.end();
  const freeDiameter = rim + 2 * width * aspect;
  const speedSymbol = service.speedSymbol ?? oldSymbol;
  return {
    width,
    aspect,
    rim,
    freeDiameter,
    effectiveRadius: effectiveRadius(freeDiameter),
    ...(service.loadIndex === null ? {} : { loadIndex: service.loadIndex }),
    ...(speedSymbol === null ? {} : { speedSymbol }),
  };
}

/** `R`, or `SR`, `HR`, `VR` with the speed symbol in front, or `ZR`, which names no limit. */
function radialMark(scan: Scanner): string | null {
  const mark = scan.take(/[A-Z]?R(?![A-Z])/y);
  const symbol = mark === null ? '' : mark.slice(0, -1);
  if (mark === null || !['', 'S', 'T', 'H', 'V', 'Z'].includes(symbol)) {
    if (mark !== null) scan.back(mark);
    throw scan.fault(
      'not the mark of a radial tyre',
      '"R" for a radial tyre, as in "145/80 R 13"; for a cross-ply tyre give the rolling radius instead',
    );
  }
  return symbol === '' || symbol === 'Z' ? null : symbol;
}

/** `91H`, `91`, `95/93 T` or nothing. */
function serviceDescription(scan: Scanner): { loadIndex: number | null; speedSymbol: string | null } {
  const load = scan.take(/\d{2,3}/y);
  const loadIndex = load === null ? null : Number(load);
  if (load !== null && loadOfIndex(Number(load)) === null) {
    scan.back(load);
    throw scan.fault(`unknown load index ${load}`, `a load index from ${LOAD_INDICES.first} to ${LOAD_INDICES.last}`);
  }
  if (load !== null) scan.take(/\/\d{2,3}/y);
  const symbol = scan.take(/[A-Z](?![A-Z])/y);
  if (symbol !== null && speedOfSymbol(symbol) === null) {
    scan.back(symbol);
    throw scan.fault(`unknown speed symbol "${symbol}"`, 'a speed symbol such as S, T, H or V');
  }
  return { loadIndex, speedSymbol: symbol };
}

interface Scanner {
  /** The next token if it matches the sticky pattern, else null and nothing is consumed. Skips spaces in front. */
  take(pattern: RegExp): string | null;
  /** Gives back a token just taken, so that a fault points at it. */
  back(token: string): void;
  number(pattern: RegExp, what: string, min: number, max: number): number;
  end(): void;
  /** An error about the next word. */
  fault(message: string, expected: string): TyreSizeError;
}

function scanner(text: string): Scanner {
  const upper = text.toUpperCase();
  let at = 0;
  const skip = (): void => {
    while (/\s/.test(upper[at] ?? '')) at++;
  };
  const scan: Scanner = {
    take(pattern) {
      skip();
      pattern.lastIndex = at;
      const token = pattern.exec(upper)?.[0] ?? null;
      if (token !== null) at += token.length;
      return token;
    },
    back(token) {
      at -= token.length;
    },
    number(pattern, what, min, max) {
      const token = scan.take(pattern);
      const expected = `a ${what} from ${min} to ${max}, as in "145/80 R 13"`;
      if (token === null) throw scan.fault(`no ${what}`, expected);
      const value = Number(token);
      if (value >= min && value <= max) return value;
      scan.back(token);
      throw scan.fault(`${token} is no ${what}`, expected);
    },
    end() {
      skip();
      if (at < upper.length)
        throw scan.fault('text that does not belong to a tyre size', 'nothing more after the size');
    },
    fault(message, expected) {
      skip();
      const length = /^(?:[\d.]+|[^\s\d/]+|.)/.exec(upper.slice(at))?.[0].length ?? 1;
      return new TyreSizeError(at, length, message, expected);
    },
  };
  return scan;
}
