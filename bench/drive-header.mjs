// The car and the schedule of `drive.ts` as a C header: the same numbers at the same places as in the project.
import { numbers, places } from './car-header.mjs';

/** @param {any} car the answer to `parameters`, see `drive.ts` */
export function driveHeader(car) {
  const { P, A, F, FA, AXLE_SIZE, FA_SIZE } = car.layout;
  return [
    ...places('P', P),
    ...places('A', A),
    ...places('F', F),
    ...places('FA', FA),
    `#define AXLE_SIZE ${AXLE_SIZE}`,
    `#define FA_SIZE ${FA_SIZE}`,
    `#define AXLE ${car.axle}`,
    `#define POINTS ${car.speed.length}`,
    `#define OCV_RECORDS ${car.ocv.length / 5}`,
    `#define RESISTANCE_RECORDS ${car.resistance.length / 5}`,
    numbers('BLOCK', car.block),
    numbers('FOLLOW', car.follow),
    numbers('OCV', car.ocv),
    numbers('RESISTANCE', car.resistance),
    numbers('SPEED', car.speed),
    numbers('START', car.start),
    numbers('AUXILIARIES', [car.auxiliaries]),
    `const char *ENERGY_NAME[] = {${car.energies.map(name => JSON.stringify(name)).join(', ')}};`,
    '',
  ].join('\n');
}
