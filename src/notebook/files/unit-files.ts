/** Reads the files that the drive units of a car name, so that the model gets plain tables. */
import type { LossTable } from '../../model/drive/efficiency-map.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { TorqueTable } from '../../model/drive/torque-surface.ts';
import { UnreadableFile } from './unreadable-file.ts';
import { readLossTable, readTorqueTable } from './map-file.ts';
import { type FieldValue, type FieldValues, writtenKey } from '../fields/read-context.ts';

/** What the files of one drive unit say. */
export interface UnitFiles {
  readonly loss: LossTable | null;
  readonly torque: TorqueTable | null;
  /** Sentences that the reader must see. */
  readonly notes: readonly string[];
}

/**
 * The files of every drive unit in the values of a car, by the path of the unit: `coupe.drive.unit`.
 * @param path of the car. @param readFile text of a file in the folder of the notebook; throws UnreadableFile.
 * @throws SpecError, at the field that names it, for a file that cannot be read.
 * @throws NotebookProblem, located in the file, for what is wrong in it.
 */
export function readUnitFiles(
  values: FieldValues,
  path: string,
  readFile: (path: string) => string,
): ReadonlyMap<string, UnitFiles> {
  const files = new Map<string, UnitFiles>();
  for (const [key, value] of Object.entries(values)) {
    const below = `${path}.${writtenKey(key)}`;
    for (const [group, at] of groupsOf(value, below)) {
      if (key === 'unit') files.set(at, filesOf(group, at, readFile));
      else for (const [found, each] of readUnitFiles(group, at, readFile)) files.set(found, each);
    }
  }
  return files;
}

function groupsOf(value: FieldValue, path: string): readonly (readonly [FieldValues, string])[] {
  if (typeof value !== 'object') return [];
  if (!Array.isArray(value)) return [[value as FieldValues, path]];
  return value.flatMap((each, i) => (typeof each === 'object' ? [[each as FieldValues, `${path}[${i + 1}]`]] : []));
}

function filesOf(unit: FieldValues, path: string, readFile: (path: string) => string): UnitFiles {
  const read = <T>(key: string, table: (text: string, file: string) => { table: T; notes: readonly string[] }) => {
    const file = unit[key];
    if (typeof file !== 'string') return { table: null, notes: [] };
    let text: string;
    try {
      text = readFile(file);
    } catch (error) {
      if (!(error instanceof UnreadableFile)) throw error;
      throw new SpecError(`${path}.${writtenKey(key)}`, error.message, 'a CSV file in the folder of the notebook');
    }
    return table(text, file);
  };
  const loss = read('map', readLossTable);
  const torque = read('torqueTable', readTorqueTable);
  return { loss: loss.table, torque: torque.table, notes: [...loss.notes, ...torque.notes] };
}
