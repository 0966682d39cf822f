/** The `axlewatt` command. Built for itself, for `require`: starting the loader of modules takes as long as all of the help. */
import { INTERNAL, lastResort, USAGE } from './exit.ts';
import { keptHelp } from './help.ts';

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

const args = process.argv.slice(2);
const width = process.stdout.columns ?? 100;
const help = keptHelp(args, width, import.meta.url);
if (help === null) void run();
else process.stdout.write(help);

async function run(): Promise<void> {
  // Beside it where it is built; the packer leaves it where it is.
  const { call } = (await import(new URL('main.mjs', import.meta.url).href)) as typeof import('./main.ts');
  process.exitCode = await call(args, width);
}
