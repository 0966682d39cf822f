/** `yaml calibrate NAME`: from what a car was logged to do, back to the car. */
import { COAST_DOWN } from '../../fit/coast/result.ts';
import { LAUNCH_LOG } from '../../fit/launch/result.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { Result } from '../../runs/result.ts';
import { SEASON } from '../../fit/season/result.ts';
import { placeOf } from '../document/place.ts';
import { type FieldValues, writtenKey } from '../fields/read-context.ts';
import { calibrateFields } from './calibrate-fields.ts';
import { calibrateCoast } from './calibrate-coast.ts';
import { calibrateLaunch } from './calibrate-launch.ts';
import { calibrateSeason } from './calibrate-season.ts';
import { calibratedCar } from './calibrated-car.ts';
import { calibratedParts, partLines } from './calibrated-parts.ts';
import { fieldNeeds, readCell, readFieldsOf, withSpec } from './fields.ts';
import type { CellKind } from './kind.ts';
import { type Remembered, remembered } from '../memory.ts';
import { logsRead } from './logs-read.ts';
import { resultYield } from './result.ts';
import { LOG_KEYS } from './trip-way.ts';
import { carOf } from './the-car.ts';
import type { Calibrating } from './calibrating.ts';

/** Kinds of result that it gives. */
export const CALIBRATIONS: ReadonlySet<string> = new Set([COAST_DOWN, LAUNCH_LOG, SEASON]);

const WAYS: { readonly [key: string]: (asked: Calibrating) => Result } = {
  coast: calibrateCoast,
  launch: calibrateLaunch,
  drives: calibrateSeason,
  charges: calibrateSeason,
};

const DAY = ['temperature', 'altitude', 'humidity'];
/** What each way has a use for, beside the car. */
const USES: { readonly [way: string]: readonly string[] } = {
  coast: ['coast', 'from', 'to', 'testMass', 'turningMass', 'sideWind', ...DAY, ...LOG_KEYS],
  launch: ['launch', 'to', 'fit', 'receiver', 'meter', 'wind', 'slope', 'surface', ...DAY, ...LOG_KEYS],
  drives: ['drives', 'charges', 'fit', 'curve', ...LOG_KEYS],
  charges: ['charges', 'curve', ...LOG_KEYS],
};

/** @throws SpecError for what would be passed over in silence. */
function refuseUnused(name: string, way: string, values: FieldValues): void {
  const uses = USES[way] ?? [];
  const unused = Object.keys(values).find(key => key !== 'car' && !uses.includes(key));
  if (unused === undefined) return;
  const known = uses.filter(key => key !== way).map(writtenKey);
  throw new SpecError(
    `${name}.${writtenKey(unused)}`,
    `has no use for ${way}`,
    known.length === 0 ? '' : `with it: ${known.join(', ')}`,
  );
}

export const calibrate: CellKind = {
  kind: 'calibrate',
  language: 'yaml',
  named: true,
  doc: 'a car measured: coast-downs give its road load, launches its power, grip and torque, a season of drives and charges its consumers, drag, capacity and charger, with the uncertainty that they leave',
  fields: calibrateFields,
  notes: [
    'coast: three runs or more in each direction over the same road, in neutral, without brake or pedal',
    'launch: one launch or more at full pedal, each log from a second before the pedal goes down; with the speed of the driven wheels grip and torque part, with the power of the pack the copper loss, or the mass',
    'a car cell with from: and the name of this cell is the car with what was found, measured together',
    'a part cell (kind: tyre, unit, road_load, pack) with from: and the name of this cell is the part that was measured; a car that takes two such parts of one cell keeps the covariance between them',
  ],
  prepare(cell) {
    const map = readCell(cell);
    return {
      needs: fieldNeeds(map, calibrateFields),
      run(world) {
        const { name } = cell.piece;
        const read = readFieldsOf(map, calibrateFields, world, name);
        const car = carOf(read.values['car'], cell, map, world);
        const carCell = world.given(car.carName)?.product;
        if (carCell?.kind !== 'car') throw new Error(`${name} has no car`);
        const inputs = [...car.inputs, ...read.inputs];
        const { result, assumed } = withSpec(map, name, () => {
          const [way, second] = Object.keys(WAYS).filter(key => read.values[key] !== undefined);
          const ways = Object.keys(WAYS).join(' or ');
          if (way === undefined) throw new SpecError(name, 'does not say what was logged', ways);
          if (second !== undefined && WAYS[second] !== WAYS[way])
            throw new SpecError(`${name}.${second}`, `stands beside ${way}`, 'a cell for each');
          refuseUnused(name, way, read.values);
          const asked = { name, values: read.values, inputs, car, map: carCell.map, world };
          const answer = (): Remembered => {
            const list: Input[] = [];
            const found = WAYS[way]?.({ ...asked, assumed: list });
            if (found === undefined) throw new Error(`${name} has no way`);
            return { result: found, assumed: list };
          };
          const all = world.memory === undefined ? null : logsRead(asked);
          return all === null ? answer() : remembered(world.memory, all, answer);
        });
        const { lines } = result;
        if (lines === undefined) return resultYield(result, [...inputs, ...assumed], world.system);
        const place = placeOf(cell.text, cell.piece.line);
        const parts = calibratedParts(carCell.map, lines, result.parts ?? {}, place, world);
        const told = {
          ...result,
          parts: Object.fromEntries([...parts].map(([kind, part]) => [kind, partLines(kind, part)])),
        };
        const given = resultYield(told, [...inputs, ...assumed], world.system);
        const product = given.product?.kind === 'result' ? given.product : null;
        if (product === null) return given;
        return { ...given, product: { ...product, calibrated: calibratedCar(carCell.map, lines, place), parts } };
      },
    };
  },
};
