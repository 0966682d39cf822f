import { EventEmitter } from 'node:events';
import { expect, it } from 'vitest';
import { createInterrupt } from '../../src/batch/interrupt.ts';

class FakeProcess extends EventEmitter {
  readonly exits: number[] = [];
  exit(code: number): void {
    this.exits.push(code);
  }
}

/** What is seen inside of work that `act` happens to. */
async function whileWorking(act: (fake: FakeProcess) => void) {
  const fake = new FakeProcess();
  const said: string[] = [];
  const interrupt = createInterrupt(fake, text => void said.push(text));
  await interrupt.during(async () => act(fake));
  return { fake, said, interrupt };
}

it('asks to stop at the first Ctrl-C and ends the process at the second', async () => {
  const { fake, said, interrupt } = await whileWorking(fake => fake.emit('SIGINT'));
  expect(interrupt.signal.aborted).toBe(true);
  expect(interrupt.code).toBe(130);
  expect(said).toEqual(['stopping after the rows that are being done; once more to stop at once']);
  expect(fake.exits).toEqual([]);
  await interrupt.during(async () => void fake.emit('SIGINT'));
  expect(fake.exits).toEqual([130]);
});

it('does the same when a scheduler sends SIGTERM, with the exit code of that', async () => {
  expect((await whileWorking(fake => fake.emit('SIGTERM'))).interrupt.code).toBe(143);
});

it('listens during work only: else the system ends the process at once', async () => {
  const { fake, interrupt } = await whileWorking(fake => {
    expect(fake.listenerCount('SIGINT') + fake.listenerCount('SIGTERM')).toBe(2);
  });
  expect(fake.listenerCount('SIGINT') + fake.listenerCount('SIGTERM')).toBe(0);
  expect(interrupt.code).toBe(0);
  expect(interrupt.signal.aborted).toBe(false);
});

it('hears a signal that comes with the last rows', async () => {
  const { interrupt } = await whileWorking(fake => void setImmediate(() => fake.emit('SIGINT')));
  expect(interrupt.code).toBe(130);
});
