/** Firefox without a window, driven by Marionette, the protocol that it comes with (messages of `[0, id, command, parameters]`, with their length in front). */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const NAMES = ['firefox-esr', 'firefox'];
const name = NAMES.find(each => spawnSync(each, ['--version'], { stdio: 'ignore' }).error === undefined);

/** Whether there is one on this machine. */
export const hasFirefox = name !== undefined;

export interface Firefox {
  go(address: string): Promise<void>;
  /** What an expression gives, awaited; it must survive JSON. */
  evaluate(expression: string): Promise<unknown>;
  /** Waits until an expression is true. */
  until(expression: string, seconds?: number): Promise<void>;
  close(): Promise<void>;
}

export async function startFirefox(): Promise<Firefox> {
  const profile = mkdtempSync(join(tmpdir(), 'axlewatt-firefox-'));
  // Port 0 is any that is free; which one it became stands in a file of the profile.
  writeFileSync(
    join(profile, 'user.js'),
    'user_pref("marionette.port", 0);\nuser_pref("browser.shell.checkDefaultBrowser", false);\n',
  );
  const child = spawn(name ?? '', ['--headless', '--no-remote', '--marionette', '--profile', profile], {
    stdio: 'ignore',
  });
  const told = join(profile, 'MarionetteActivePort');
  await waitFor(() => existsSync(told) && readFileSync(told, 'utf8') !== '', 60);
  const socket = connect(Number(readFileSync(told, 'utf8')), '127.0.0.1');
  const call = await talk(socket);
  await call('WebDriver:NewSession', {});
  await call('WebDriver:SetTimeouts', { script: 120_000, pageLoad: 120_000 });
  const evaluate = async (expression: string): Promise<unknown> => {
    const script = `const done = arguments[arguments.length - 1];
      Promise.resolve().then(() => (${expression})).then(value => done({ value }), error => done({ error: String(error) }));`;
    const { value } = (await call('WebDriver:ExecuteAsyncScript', { script, args: [], newSandbox: false })) as {
      readonly value: { readonly value?: unknown; readonly error?: string };
    };
    if (value.error !== undefined) throw new Error(value.error);
    return value.value;
  };
  return {
    evaluate,
    go: async address => void (await call('WebDriver:Navigate', { url: address })),
    until: (expression, seconds = 30) => waitFor(async () => (await evaluate(expression)) === true, seconds),
    async close() {
      const ended = new Promise<void>(resolve => void child.once('exit', () => resolve()));
      await call('Marionette:Quit', { flags: ['eForceQuit'] }).catch(() => child.kill());
      await ended;
      socket.destroy();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

async function waitFor(done: () => boolean | Promise<boolean>, seconds: number): Promise<void> {
  const end = performance.now() + 1000 * seconds;
  while (!(await done())) {
    if (performance.now() > end) throw new Error(`not within ${seconds} s`);
    await new Promise(resolve => setTimeout(resolve, 50));
  }
}

type Call = (command: string, parameters: object) => Promise<unknown>;

/** Answers are `[1, id, error, result]`; the first message is a greeting. */
async function talk(socket: Socket): Promise<Call> {
  const waiting = new Map<number, (error: { readonly message: string } | null, result: unknown) => void>();
  let rest = Buffer.alloc(0);
  const greeted = new Promise<void>(resolve => {
    socket.on('data', data => {
      rest = Buffer.concat([rest, data]);
      for (;;) {
        const colon = rest.indexOf(':');
        const length = Number(rest.subarray(0, colon).toString());
        if (colon < 0 || rest.length < colon + 1 + length) return;
        const message = JSON.parse(rest.subarray(colon + 1, colon + 1 + length).toString()) as unknown;
        rest = rest.subarray(colon + 1 + length);
        if (Array.isArray(message)) waiting.get(Number(message[1]))?.(message[2], message[3]);
        else resolve();
      }
    });
  });
  await greeted;
  let calls = 0;
  return (command, parameters) =>
    new Promise((resolve, reject) => {
      const id = ++calls;
      waiting.set(id, (error, result) => {
        waiting.delete(id);
        if (error === null) resolve(result);
        else reject(new Error(`${command}: ${error.message}`));
      });
      const text = JSON.stringify([0, id, command, parameters]);
      socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
}
