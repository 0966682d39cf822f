/** `axlewatt cells`: what cells take. */
import { outputsReference, partsReference, schedulesReference } from '../notebook/fields/lists-reference.ts';
import { kindsReference, pathReference, UnknownPath } from '../notebook/fields/reference.ts';
import { cellSchema, cellsSchema } from '../notebook/fields/schema.ts';
import { FINE, type Terminal, USAGE } from './exit.ts';

export interface CellsArguments {
  readonly kind?: string | undefined;
  readonly outputs: boolean;
  readonly schema: boolean;
}

export function printCells(args: CellsArguments, terminal: Terminal): number {
  try {
    terminal.out(textOf(args, Math.min(terminal.width, 100)));
    return FINE;
  } catch (error) {
    if (!(error instanceof UnknownPath)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
}

/** @throws UnknownPath */
function textOf({ kind, outputs, schema }: CellsArguments, width: number): string {
  if (schema) return JSON.stringify(schemaOf(kind), null, 2);
  if (kind === undefined) return kindsReference();
  if (outputs) return outputsReference(kind, width);
  if (kind === 'schedules') return schedulesReference(width);
  return kind === 'parts' ? partsReference(width) : pathReference(kind, width);
}

function schemaOf(kind: string | undefined): object {
  const whole = cellsSchema();
  if (kind === undefined) return whole;
  const found = cellSchema(kind);
  if (found === null) throw new UnknownPath(kind, Object.keys(whole['$defs'] as object));
  return found;
}
