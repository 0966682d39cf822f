/** The `axlewatt` command. */
import { main } from './main.ts';
import { harmless } from '../report/harmless.ts';
import { INTERNAL, lastResort, USAGE } from './exit.ts';

// A reader that closes early (`axlewatt cells car | head -3`) is no failure, and `run` has files to write all the same.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return;
  process.stderr.write(`axlewatt: cannot write what it has to say: ${error.message}\n`);
  process.exit(USAGE);
});
process.on('uncaughtException', error => {
  process.stderr.write(lastResort(error));
  process.exit(INTERNAL);
});

process.exitCode = await main(process.argv.slice(2), {
  out: text => void process.stdout.write(`${text}\n`),
  err: text => void process.stderr.write(`${text.split('\n').map(harmless).join('\n')}\n`),
  color: process.stdout.isTTY && (process.env['NO_COLOR'] ?? '') === '',
  width: process.stdout.columns ?? 100,
});
