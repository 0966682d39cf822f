import { describe, expect, it } from 'vitest';
import { SpecError } from '../../../src/model/fields/spec-error.ts';
import { UnreadableFile } from '../../../src/notebook/files/unreadable-file.ts';
import { NotebookProblem } from '../../../src/notebook/document/problem.ts';
import { readUnitFiles } from '../../../src/notebook/files/unit-files.ts';

const FILES: { readonly [path: string]: string } = {
  'map.csv': 'speed_rpm;torque_N_m;loss_W\n0;0;100\n0;10;110\n0;20;140\n900;0;100\n900;10;120\n900;20;150',
  'torque.csv': 'speed_rpm,torque_N_m\n0,100\n9000,20',
  'bad.csv': 'speed_rpm,torque_N_m\n0,100\n9000,x',
};

function readFile(path: string): string {
  const text = FILES[path];
  if (text === undefined) throw new UnreadableFile(`cannot read "${path}": no such file`);
  return text;
}

describe('the files of drive units', () => {
  it('are found by the path of the unit, in one drive or in several', () => {
    const files = readUnitFiles(
      { mass: 1000, drive: { ratio: 8, unit: { map: 'map.csv', torqueTable: 'torque.csv' } }, pack: { series: 96 } },
      'coupe',
      readFile,
    );
    const unit = files.get('coupe.drive.unit');
    expect([...files.keys()]).toEqual(['coupe.drive.unit']);
    expect(unit?.loss?.torque).toEqual([0, 10, 20]);
    expect(unit?.torque?.torque).toEqual([100, 20]);
    expect(unit?.notes).toEqual(['map.csv: semicolons set off the columns']);
    const two = readUnitFiles({ frontDrive: { unit: {} }, drives: [{ unit: { map: 'map.csv' } }] }, 'coupe', readFile);
    expect([...two.keys()]).toEqual(['coupe.front_drive.unit', 'coupe.drives[1].unit']);
    expect(two.get('coupe.front_drive.unit')).toEqual({ loss: null, torque: null, notes: [] });
  });

  it('are complained of at the field when they cannot be read, and in the file for what is in them', () => {
    const read = (torqueTable: string) => () => readUnitFiles({ drive: { unit: { torqueTable } } }, 'coupe', readFile);
    expect(read('none.csv')).toThrow(SpecError);
    try {
      read('none.csv')();
    } catch (error) {
      expect(error).toMatchObject({
        path: 'coupe.drive.unit.torque_table',
        message: 'cannot read "none.csv": no such file',
        expected: 'a CSV file in the folder of the notebook',
      });
    }
    expect(read('bad.csv')).toThrow(NotebookProblem);
    expect(read('bad.csv')).toThrow(/^bad\.csv:3:6: "x" is not a number/);
  });
});
