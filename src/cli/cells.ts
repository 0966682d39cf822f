/** `axlewatt cells`: what cells take. */
import { kindsReference, pathReference, UnknownPath } from '../notebook/fields/reference.ts';
import { FINE, type Terminal, USAGE } from './exit.ts';

export function printCells(path: string | undefined, terminal: Terminal): number {
  try {
    terminal.out(path === undefined ? kindsReference() : pathReference(path, Math.min(terminal.width, 100)));
    return FINE;
  } catch (error) {
    if (!(error instanceof UnknownPath)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
}
