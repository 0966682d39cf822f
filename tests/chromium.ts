/** Chromium without a window, driven through a pipe: what a reader's browser makes of a page. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly sessionId?: string;
  readonly params?: Record<string, unknown>;
  readonly result?: Record<string, unknown>;
  readonly error?: { readonly message: string };
}

export interface Page {
  /** What an expression gives, awaited; it must survive JSON. */
  evaluate(expression: string): Promise<unknown>;
  /** Waits until an expression is true. */
  until(expression: string, seconds?: number): Promise<void>;
  send(method: string, params?: object): Promise<Record<string, unknown>>;
  /** All that the page asked for from outside itself, and all that its policy or its scripts complained of. */
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
  /** As `send`, to each worker that the page has started since `watchWorkers`. */
  readonly workers: readonly Page['send'][];
  watchWorkers(): Promise<void>;
  close(): Promise<void>;
}

export interface Browser {
  open(address: string, width?: number, height?: number): Promise<Page>;
  close(): Promise<void>;
}

/** Whether there is one on this machine. */
export const hasBrowser = spawnSync('chromium', ['--version'], { stdio: 'ignore' }).error === undefined;

export async function startBrowser(): Promise<Browser> {
  const profile = mkdtempSync(join(tmpdir(), 'axlewatt-chromium-'));
  const child = spawn(
    'chromium',
    [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      `--user-data-dir=${profile}`,
      '--remote-debugging-pipe',
      'about:blank',
    ],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] },
  );
  const [to, from] = [child.stdio[3] as Writable, child.stdio[4] as Readable];
  const waiting = new Map<number, (message: Message) => void>();
  const heard = new Set<(message: Message) => void>();
  let rest = '';
  from.setEncoding('utf8');
  from.on('data', (text: string) => {
    const parts = (rest + text).split('\0');
    rest = parts.pop() ?? '';
    for (const part of parts) {
      const message = JSON.parse(part) as Message;
      if (message.id !== undefined) waiting.get(message.id)?.(message);
      else for (const listener of heard) listener(message);
    }
  });
  let calls = 0;
  const call = (method: string, params: object = {}, sessionId?: string): Promise<Record<string, unknown>> =>
    new Promise((resolve, reject) => {
      const id = ++calls;
      waiting.set(id, ({ result, error }) => {
        waiting.delete(id);
        if (error === undefined) resolve(result ?? {});
        else reject(new Error(`${method}: ${error.message}`));
      });
      to.write(`${JSON.stringify({ id, method, params, ...(sessionId !== undefined && { sessionId }) })}\0`);
    });

  async function open(address: string, width = 1280, height = 900): Promise<Page> {
    const { targetId } = await call('Target.createTarget', { url: 'about:blank' });
    const { sessionId } = await call('Target.attachToTarget', { targetId, flatten: true });
    const send = (method: string, params: object = {}) => call(method, params, String(sessionId));
    const [requests, complaints]: [string[], string[]] = [[], []];
    const workers: Page['send'][] = [];
    const listener = (message: Message): void => {
      if (message.sessionId !== sessionId) return;
      const { method, params = {} } = message;
      if (method === 'Target.attachedToTarget')
        workers.push((asked, more = {}) => call(asked, more, String(params['sessionId'])));
      if (method === 'Network.requestWillBeSent') requests.push((params['request'] as { url: string }).url);
      if (method === 'Runtime.exceptionThrown') complaints.push(JSON.stringify(params['exceptionDetails']));
      if (method === 'Log.entryAdded') complaints.push((params['entry'] as { text: string }).text);
    };
    heard.add(listener);
    for (const domain of ['Page', 'Runtime', 'Network', 'Log']) await send(`${domain}.enable`);
    await send('Emulation.setDeviceMetricsOverride', { width, height, deviceScaleFactor: 1, mobile: false });
    await send('Page.navigate', { url: address });
    const evaluate = async (expression: string): Promise<unknown> => {
      const { result, exceptionDetails } = await send('Runtime.evaluate', {
        expression,
        awaitPromise: true,
        returnByValue: true,
      });
      if (exceptionDetails !== undefined) throw new Error(JSON.stringify(exceptionDetails));
      return (result as { value?: unknown }).value;
    };
    return {
      evaluate,
      send,
      requests,
      complaints,
      workers,
      async watchWorkers() {
        await send('Target.setAutoAttach', { autoAttach: true, waitForDebuggerOnStart: false, flatten: true });
      },
      async until(expression, seconds = 30) {
        const end = performance.now() + 1000 * seconds;
        // While a page loads there may be nothing that could be asked.
        for (;;) {
          const found = await evaluate(expression).catch((error: unknown) => String(error));
          if (found === true) return;
          if (performance.now() > end) throw new Error(`not within ${seconds} s: ${expression}: ${String(found)}`);
          await new Promise(resolve => setTimeout(resolve, 20));
        }
      },
      async close() {
        heard.delete(listener);
        await call('Target.closeTarget', { targetId });
      },
    };
  }

  return {
    open,
    async close() {
      await call('Browser.close');
      await new Promise<void>(resolve => void child.once('exit', () => resolve()));
      rmSync(profile, { recursive: true, force: true });
    },
  };
}
