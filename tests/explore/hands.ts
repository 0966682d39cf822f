/** Hands notebooks to a worker process, and takes another one when it does not come back. */
import { type ChildProcess, fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Order } from './examine.ts';
import { type Finding, lostFinding } from './findings.ts';

export interface Hands {
  examine(order: Order): Promise<readonly Finding[]>;
  stop(): void;
}

/** @param limit s of processor time after which a notebook hangs */
export function openHands(worker: string, limit: number): Hands {
  let child: ChildProcess | null = null;
  const stop = (): void => {
    child?.kill('SIGKILL');
    child = null;
  };
  return {
    stop,
    examine(order) {
      child ??= fork(worker, { stdio: ['ignore', 'ignore', 'pipe', 'ipc'] });
      const hand = child;
      return new Promise(resolve => {
        let said = '';
        const listen = (data: Buffer): void => void (said = (said + data.toString()).slice(-4000));
        const done = (findings: readonly Finding[]): void => {
          clearInterval(timer);
          hand.removeAllListeners();
          hand.stderr?.off('data', listen);
          resolve(findings);
        };
        const began = Date.now();
        const before = processorTime(hand.pid);
        const timer = setInterval(() => {
          const taken = processorTime(hand.pid) - before;
          if (taken < limit && Date.now() - began < 20_000 * limit) return;
          stop();
          done([lostFinding('hang', `does not come back within ${limit} s`)]);
        }, 1000);
        hand.stderr?.on('data', listen);
        hand.once('message', message => done(message as readonly Finding[]));
        hand.once('exit', code => {
          child = null;
          done([lostFinding('fault', `the process ended with ${code}: ${said}`)]);
        });
        hand.send(order);
      });
    },
  };
}

/** s that a process has had, on a machine that others use as well; what its clock says where the system does not tell. */
function processorTime(pid: number | undefined): number {
  try {
    // Behind the name in brackets: user and system time are the 12th and 13th field, in hundredths of a second (proc(5)).
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
    return (Number(fields[11]) + Number(fields[12])) / 100;
  } catch {
    return performance.now() / 1000;
  }
}
