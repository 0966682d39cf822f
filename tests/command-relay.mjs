// The thread between a test, which waits, and the process that it waits for: `command.ts`.
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { workerData } from 'node:worker_threads';

const { port, done } = workerData;
let host = null;

async function opened() {
  const child = fork(fileURLToPath(new URL('./command-host.mjs', import.meta.url)), {
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    serialization: 'advanced',
    execArgv: [],
  });
  await once(child, 'message');
  return child;
}

/** The answer of a call; code null where it had to be stopped. */
function asked(child, request, seconds) {
  return new Promise(resolve => {
    const timer = setTimeout(() => child.kill('SIGKILL'), seconds * 1000);
    let last = '';
    const heard = bytes => void (last += bytes);
    child.stderr.on('data', heard);
    const end = answer => {
      clearTimeout(timer);
      child.removeAllListeners('message');
      child.removeAllListeners('exit');
      child.stderr.off('data', heard);
      resolve(answer);
    };
    child.once('message', end);
    child.once('exit', code => {
      host = null;
      end({ code, out: '', err: last });
    });
    child.send(request);
  });
}

port.on('message', async ({ seconds, ...request }) => {
  host ??= await opened();
  port.postMessage(await asked(host, request, seconds));
  Atomics.store(done, 0, 1);
  Atomics.notify(done, 0);
});
