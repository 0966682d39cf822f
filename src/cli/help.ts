/** The help of the command, written down when it was built: asked for alone, it is told without loading the parser of arguments. */
import { existsSync, readFileSync } from 'node:fs';

/** Characters in a line of the help: the widest of these that the terminal has, and on a narrow one as many as there are. */
export const HELP_WIDTHS = [100, 80] as const;

export function helpWidth(terminal: number): number {
  return HELP_WIDTHS.find(width => width <= terminal) ?? terminal;
}

/** The help in lines of so many characters; null where it has to be made. @param beside what is built. */
export function keptHelp(args: readonly string[], width: number, beside: string): string | null {
  const file = new URL(`help-${helpWidth(width)}.txt`, beside);
  return args.length === 1 && args[0] === '--help' && existsSync(file) ? readFileSync(file, 'utf8') : null;
}
