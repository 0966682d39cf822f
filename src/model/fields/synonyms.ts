/** Words of the workshop for what a field calls otherwise. */
import { notebookKey } from './keys.ts';

const SYNONYMS: ReadonlyMap<string, readonly string[]> = new Map([
  ['weight', ['mass']],
  ['kerb_weight', ['mass']],
  ['curb_weight', ['mass']],
  ['battery', ['pack']],
  ['motor', ['unit', 'drive']],
  ['engine', ['unit', 'drive']],
  ['tires', ['tyres']],
  ['tire', ['tyres']],
  ['wheels', ['tyres']],
  ['final_drive', ['ratio']],
  ['gear_ratio', ['ratio']],
  ['gearing', ['ratio']],
  ['reduction', ['ratio']],
  ['cd', ['drag_coefficient']],
  ['cw', ['drag_coefficient']],
  ['cda', ['drag_area']],
  ['power', ['peak_power']],
  ['torque', ['peak_torque']],
  ['rpm', ['max_speed']],
  ['redline', ['max_speed']],
  ['soc', ['charge']],
  ['grade', ['slope']],
  ['gradient', ['slope']],
  ['friction', ['dry_peak']],
  ['passengers', ['load']],
  ['payload', ['load']],
  ['luggage', ['load']],
  ['cells', ['cell', 'series']],
  ['cycle', ['schedule']],
  ['drag', ['drag_coefficient', 'drag_area']],
  ['area', ['frontal_area']],
  ['layout', ['series']],
  ['configuration', ['series']],
  ['cells_in_series', ['series']],
  ['strings', ['parallel']],
  ['items', ['out', 'in']],
]);

/** The key that a word stands for among those that may stand here, in words of the notebook or of the code; '' for none. */
export function keyMeant(word: string, known: readonly string[]): string {
  const meant = SYNONYMS.get(word.toLowerCase()) ?? SYNONYMS.get(notebookKey(word)) ?? [];
  return meant.flatMap(own => known.filter(key => notebookKey(key) === own))[0] ?? '';
}
