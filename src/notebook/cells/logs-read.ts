/** What a calibration hangs on, as one piece of plain data: the same again has the same answer. */
import type { LocatedNode } from '../document/located.ts';
import { UnreadableFile } from '../files/unreadable-file.ts';
import type { LogsRead } from '../memory.ts';
import type { Calibrating } from './calibrating.ts';

/** Null where a log can not be read: the calibration says so itself. */
export function logsRead({ name, values, inputs, car, map, world }: Omit<Calibrating, 'assumed'>): LogsRead | null {
  const { carName, spec, measured, joint } = car;
  // Where an input stands in the notebook changes nothing.
  const numbers = inputs.map(({ path, value, unit, spread, origin }) => ({
    path,
    value,
    unit,
    spread: spread ?? null,
    by: origin.kind,
  }));
  try {
    return {
      calibrate: name,
      // What the car cell says by name is written into the lines that come out.
      said: { values, inputs: numbers, car: { carName, spec, joint, measured: [...measured] }, words: wordsOf(map) },
      logs: [...new Set(logsIn(values))].map(file => [file, world.readFile(file)] as const),
    };
  } catch (error) {
    if (error instanceof UnreadableFile) return null;
    throw error;
  }
}

function logsIn(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.flatMap(logsIn);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) =>
    key === 'log' && typeof each === 'string' ? [each] : logsIn(each),
  );
}

/** What is written, wherever it stands. */
function wordsOf(node: LocatedNode): unknown {
  if (node.kind === 'scalar') return node.text;
  if (node.kind === 'list') return node.items.map(wordsOf);
  return node.entries.map(({ key, value }) => [key.text, wordsOf(value)]);
}
