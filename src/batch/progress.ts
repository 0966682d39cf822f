/** How far a long job is: a bar with the time left on a terminal, now and then a line elsewhere. */
import { lastOf } from '../columns.ts';

export interface ProgressPlace {
  /** Writes as it stands, to stderr: stdout is for results. */
  write(text: string): void;
  /** Whether a line can be written over. */
  readonly bar: boolean;
  /** Characters in a line. */
  readonly width: number;
  /** Seconds; any start. */
  now(): number;
}

/** A stream as the place of progress: `process.stderr`. */
export function placeOf(stream: { write(text: string): unknown; isTTY?: boolean; columns?: number }): ProgressPlace {
  return {
    write: text => void stream.write(text),
    bar: stream.isTTY === true,
    get width() {
      return stream.columns ?? 80;
    },
    now: () => performance.now() / 1000,
  };
}

export interface Progress {
  /** To be told after each batch. The first call tells what was there before. */
  update(done: number, total: number): void;
  /** Takes the bar away. */
  end(): void;
}

/** A job that is done by then needs no bar. */
const BAR_AFTER = 0.5;
const BAR_EVERY = 0.1;
/** Seconds between lines: more as the job goes on, so that a night's log stays short. */
const LINES = [5, 10, 20, 30, 60, 120, 300];
const BAR_WIDTH = 24;

/** @param name what is being done, for people. */
export function createProgress(name: string, place: ProgressPlace): Progress {
  let began = Number.NaN;
  let before = 0;
  let latest = 0;
  let lines = 0;
  let shown = false;
  return {
    update(done, total) {
      const now = place.now();
      if (Number.isNaN(began)) {
        began = now;
        latest = now;
        before = done;
        return;
      }
      const left = timeLeft(done - before, total - done, now - began);
      if (place.bar) {
        if (now - began < BAR_AFTER || now - latest < BAR_EVERY) return;
        const text = barText(name, done, total, left).slice(0, Math.max(20, place.width - 1));
        place.write(`\r${text}\u001B[K`);
        shown = true;
      } else {
        if (now - latest < (LINES[lines] ?? lastOf(LINES)) || done === total) return;
        place.write(`${lineText(name, done, total, left)}\n`);
        lines++;
      }
      latest = now;
    },
    end() {
      if (shown) place.write('\r\u001B[K');
      shown = false;
    },
  };
}

/** Shows nothing. */
export const QUIET: Progress = { update: () => undefined, end: () => undefined };

/** Seconds until the end at the pace of this run; NaN before anything was done. */
function timeLeft(done: number, left: number, seconds: number): number {
  return done > 0 ? (seconds / done) * left : Number.NaN;
}

function barText(name: string, done: number, total: number, left: number): string {
  const full = Math.floor((BAR_WIDTH * done) / total);
  const bar = `${'#'.repeat(full)}${'-'.repeat(BAR_WIDTH - full)}`;
  return `${name} [${bar}] ${percent(done, total)}${comma(duration(left))}`;
}

function lineText(name: string, done: number, total: number, left: number): string {
  return `${name}: ${done} of ${total} rows, ${percent(done, total)}${comma(duration(left))}`;
}

function percent(done: number, total: number): string {
  return `${Math.floor((100 * done) / total)} %`;
}

function comma(text: string): string {
  return text === '' ? '' : `, ${text} left`;
}

/** `40 s`, `12 min`, `3 h 20 min`; rounded, because it is a guess. */
export function duration(seconds: number): string {
  if (!Number.isFinite(seconds)) return '';
  if (seconds < 90) return `${Math.ceil(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 90) return `${minutes} min`;
  const rest = Math.round((minutes % 60) / 10) * 10;
  const hours = Math.floor(minutes / 60) + (rest === 60 ? 1 : 0);
  return rest % 60 === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
