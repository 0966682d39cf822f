/** Arguments in, exit code out. Only yargs is loaded here; each command loads what it needs when it is called. */
import { readFileSync } from 'node:fs';
import yargs, { type Argv } from 'yargs';
import { harmless } from '../report/harmless.ts';
import { EXIT_CODES, FINE, lastResort, INTERNAL, type Terminal, USAGE } from './exit.ts';
import { helpWidth } from './help.ts';

/** For the build, which writes the help down. */
export { HELP_WIDTHS } from './help.ts';

/** `main` at the terminal of this process. */
export function call(args: readonly string[], width: number): Promise<number> {
  return main(args, {
    out: text => void process.stdout.write(`${text}\n`),
    err: text => void process.stderr.write(`${text.split('\n').map(harmless).join('\n')}\n`),
    color: process.stdout.isTTY && (process.env['NO_COLOR'] ?? '') === '',
    width,
  });
}

/** Runs the command line; resolves to the exit code and never rejects. */
export async function main(args: readonly string[], terminal: Terminal): Promise<number> {
  let code = FINE;
  const parser = yargs()
    .scriptName('axlewatt')
    .usage('Simulates how an electric car performs in a straight line, from a notebook in Markdown.')
    .command(
      'run <files..>',
      'run notebooks, or those of a folder, and write a report of each',
      runOptions,
      async argv => {
        const { runFiles } = await import('./run.ts');
        const seen = { ...terminal, color: terminal.color && argv['no-color'] !== true };
        code = await runFiles(argv, seen, version());
      },
    )
    .command(
      'open <path>',
      'show a notebook, or those of a folder, in the browser, and follow them while they are edited',
      openOptions,
      async argv => {
        const { openNotebooks } = await import('./open/open.ts');
        const browser = !argv['no-browser'] && hasScreen();
        code = await openNotebooks({ ...argv, browser }, terminal, version());
      },
    )
    .command(
      'check <files..>',
      'run notebooks and say only what is wrong',
      command =>
        command.positional('files', {
          type: 'string',
          array: true,
          demandOption: true,
          describe: 'notebooks, or folders of them',
        }),
      async argv => {
        const { checkFiles } = await import('./check.ts');
        code = checkFiles(argv.files, terminal);
      },
    )
    .command(
      'cells [kind]',
      'list what cells take: units, defaults and their sources, parts that ship',
      command =>
        command
          .positional('kind', {
            type: 'string',
            describe: 'car, launch, car.drive.unit, part.tyre, tyre_narrow, parts, schedules, ...',
          })
          .option('outputs', {
            type: 'boolean',
            default: false,
            describe: 'of a kind of run: every figure that it answers with, and what it means',
          })
          .option('schema', {
            type: 'boolean',
            default: false,
            describe: 'as JSON Schema, for editors that check YAML',
          })
          .check(({ kind, outputs }) => {
            if (outputs && kind === undefined) throw new Error('--outputs goes with a kind of run, such as launch');
            return true;
          }),
      async argv => {
        const { printCells } = await import('./cells.ts');
        code = printCells(argv, terminal);
      },
    )
    .command('new <file>', 'write a first notebook, with comments, from a few answers', newOptions, async argv => {
      const { writeNew } = await import('./new.ts');
      code = await writeNew(argv, process.stdin.isTTY && process.stderr.isTTY && argv.ask, terminal);
    })
    .command(
      'gather <parts..>',
      'join the parts that run --shard wrote on several machines',
      command =>
        command
          .positional('parts', {
            type: 'string',
            array: true,
            demandOption: true,
            describe: 'files, or folders with such files',
          })
          .option('out', { type: 'string', default: 'out', requiresArg: true, describe: 'folder for what is written' })
          .option('csv', { type: 'boolean', default: false, describe: 'write the rows as CSV too' }),
      async argv => {
        const { gatherParts } = await import('./gather.ts');
        code = gatherParts(argv, terminal);
      },
    )
    .option('no-color', { type: 'boolean', describe: 'no colours on the terminal; so does the variable NO_COLOR' })
    .parserConfiguration({ 'boolean-negation': false })
    .demandCommand(1, 'Say what to do: new, run, open, check, cells or gather.')
    .strict()
    .recommendCommands()
    .locale('en')
    .wrap(helpWidth(terminal.width))
    .epilogue(EXIT_CODES)
    .version(version())
    .exitProcess(false)
    .showHelpOnFail(false)
    .fail((message: string | null, error: unknown) => {
      // A message comes with wrong usage only; an error alone was thrown by a command.
      throw message === null || message === undefined ? error : new WrongUsage(message);
    });
  try {
    await parser.parseAsync(withoutDashes(args), {}, (_error, _argv, output) => {
      if (output !== '') terminal.out(output);
    });
  } catch (error) {
    if (error instanceof WrongUsage) {
      const { usageInWords } = await import('./wrong-usage.ts');
      const said = usageInWords(error.message, args, await parser.getHelp());
      terminal.err(`axlewatt: ${said}\nTry axlewatt --help.`);
      return USAGE;
    }
    terminal.err(lastResort(error).trimEnd());
    return INTERNAL;
  }
  return code;
}

/** What `new` takes: an answer to each question. */
function newOptions(command: Argv) {
  const text = (describe: string) => ({ type: 'string', requiresArg: true, describe }) as const;
  return command
    .positional('file', { type: 'string', demandOption: true, describe: 'the notebook to write: car.md' })
    .option('title', text('what the car is called'))
    .option('mass', text('of the finished car: "1100 kg ± 40 kg"'))
    .option('axle', text('that is driven: front, rear or both'))
    .option('unit', text('drive unit: unit_100kw, or "{ peak_torque: 250 N m, peak_power: 90 kW }"'))
    .option('ratio', text('turns of the motor for one of the wheel'))
    .option('tyre', text('kind of tyre: tyre_touring'))
    .option('size', text('of the tyres: "185/65 R 15"'))
    .option('cell', text('of the battery: cell_nmc_60ah'))
    .option('series', text('cells in series'))
    .option('parallel', text('strings of cells'))
    .option('ask', { type: 'boolean', default: true, describe: 'ask for what no option says, at a terminal' });
}

const SAMPLES = {
  type: 'number',
  requiresArg: true,
  describe:
    'samples of uncertain inputs for each run, 0 for none; left out: until the intervals stand still, 1024 at most, 128 with a run that drives for hours; a notebook may say its own',
} as const;

const WORKERS = {
  type: 'number',
  requiresArg: true,
  describe: 'threads for studies; all cores if left out',
} as const;

function outOption(describe: string) {
  return {
    type: 'string',
    default: 'out',
    requiresArg: true,
    // Given twice, it comes as a list.
    coerce: (given: string | string[]) => [given].flat().at(-1) ?? 'out',
    describe,
  } as const;
}

/** What `open` takes. */
function openOptions(command: Argv) {
  return command
    .positional('path', { type: 'string', demandOption: true, describe: 'a notebook, or a folder of notebooks' })
    .option('port', {
      type: 'number',
      requiresArg: true,
      describe: 'port on this machine; left out, always the same where it is free',
    })
    .option('no-browser', {
      type: 'boolean',
      default: false,
      describe: 'only say the address; so does a machine without a screen',
    })
    .option('out', outOption('folder for rows and answers that are kept for the next time; pages are not written'))
    .option('samples', SAMPLES)
    .option('workers', WORKERS)
    .check(wholeNumbers)
    .check(({ port }) => {
      if (port === undefined || (Number.isInteger(port) && port >= 0 && port <= 65_535)) return true;
      throw new Error('--port takes a whole number from 0 (any that is free) to 65535');
    });
}

/** Whether somebody sits in front of this machine: nobody wants a browser at the other end of a line. */
function hasScreen(): boolean {
  const { env, platform, stdout } = process;
  if (!stdout.isTTY || env['SSH_CONNECTION'] !== undefined) return false;
  return platform === 'darwin' || platform === 'win32' || Boolean(env['DISPLAY'] ?? env['WAYLAND_DISPLAY']);
}

/** What `run` takes. */
function runOptions(command: Argv) {
  return command
    .positional('files', {
      type: 'string',
      array: true,
      demandOption: true,
      describe: 'notebooks, or folders of them',
    })
    .option('out', outOption('folder for what is written'))
    .option('json', { type: 'boolean', default: false, describe: 'write all results as NAME.json too' })
    .option('csv', {
      type: 'boolean',
      default: false,
      describe: 'write each series as NAME.CELL.SERIES.csv too',
    })
    .option('brief', {
      type: 'boolean',
      default: false,
      describe: 'write the answer on one sheet, to be printed and signed, as NAME.brief.html too',
    })
    .option('samples', SAMPLES)
    .option('workers', WORKERS)
    .option('shard', {
      type: 'string',
      requiresArg: true,
      describe: 'k/n: only this part of the rows of each study',
    })
    .option('fresh', {
      type: 'boolean',
      default: false,
      describe: 'work everything out anew; else what earlier runs left in OUT/.axlewatt is taken up',
    })
    .option('quiet', { type: 'boolean', default: false, describe: 'say nothing of the progress of studies' })
    .check(wholeNumbers);
}

function wholeNumbers({
  samples = 0,
  workers,
}: {
  readonly samples?: number | undefined;
  readonly workers?: number | undefined;
}): true {
  if (!Number.isInteger(samples) || samples < 0 || samples > 1e6)
    throw new Error('--samples takes a whole number from 0 to 1000000');
  if (workers !== undefined && (!Number.isInteger(workers) || workers < 1 || workers > 256)) {
    throw new Error('--workers takes a whole number from 1 to 256');
  }
  return true;
}

class WrongUsage extends Error {}

/** What stands behind `--` is a file, whatever it begins with; yargs keeps it from the list of files. */
function withoutDashes(args: readonly string[]): string[] {
  const at = args.indexOf('--');
  if (at < 0) return [...args];
  return [...args.slice(0, at), ...args.slice(at + 1).map(file => (file.startsWith('-') ? `./${file}` : file))];
}

/** Ours: left alone, yargs tells the version of the package in the folder the user stands in. */
function version(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return String((JSON.parse(text) as { version: unknown }).version);
}
