import { EventEmitter } from 'node:events';
import { expect, it } from 'vitest';
import { createInterrupt } from '../../src/batch/interrupt.ts';

class FakeProcess extends EventEmitter {
  readonly exits: number[] = [];
  exit(code: number): void {
    this.exits.push(code);
  }
}

it('asks to stop at the first Ctrl-C and ends the process at the second', () => {
  const fake = new FakeProcess();
  const said: string[] = [];
  const interrupt = createInterrupt(fake, text => void said.push(text));
  expect(interrupt.code).toBe(0);
  expect(interrupt.signal.aborted).toBe(false);
  fake.emit('SIGINT');
  expect(interrupt.signal.aborted).toBe(true);
  expect(interrupt.code).toBe(130);
  expect(said).toEqual(['stopping after the rows that are being done; once more to stop at once']);
  expect(fake.exits).toEqual([]);
  fake.emit('SIGINT');
  expect(fake.exits).toEqual([130]);
});

it('does the same when a scheduler sends SIGTERM, with the exit code of that', () => {
  const fake = new FakeProcess();
  const interrupt = createInterrupt(fake, () => undefined);
  fake.emit('SIGTERM');
  expect(interrupt.code).toBe(143);
});

it('gives the signals back', () => {
  const fake = new FakeProcess();
  const interrupt = createInterrupt(fake, () => undefined);
  interrupt.release();
  expect(fake.listenerCount('SIGINT') + fake.listenerCount('SIGTERM')).toBe(0);
  fake.emit('SIGINT');
  expect(interrupt.code).toBe(0);
});
