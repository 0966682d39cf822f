// The packed car as a C header: the same numbers at the same places as in the project, and the names of the places.

const braces = list => `{${list.join(', ')}}`;
const quoted = list => braces(list.map(name => JSON.stringify(name)));
// Not const: a compiler that knew the car would calculate with it beforehand.
export const numbers = (name, list) => `double ${name}[] = ${braces(list)};`;
export const places = (prefix, layout) => Object.entries(layout).map(([name, at]) => `#define ${prefix}_${name} ${at}`);

/** @param {any} car the answer to `parameters`, see `launch.ts`; the drive unit must have no torque table */
export function carHeader(car) {
  const { P, A, L, AXLE_SIZE, GRIP, QUADRATURES } = car.layout;
  const { levels } = car;
  return [
    ...places('P', P),
    ...places('A', A),
    ...places('L', L),
    `#define AXLE_SIZE ${AXLE_SIZE}`,
    `#define GRIP ${GRIP}`,
    `#define LIMITS ${Object.keys(L).length}`,
    `#define STATES ${car.start.length}`,
    `#define SPINS ${Number(car.spins)}`,
    `#define PAIRS ${car.start.length - 3 - Number(car.spins)}`,
    `#define QUADRATURE_COUNT ${QUADRATURES.length}`,
    `#define LEVELS ${levels.length}`,
    `#define MODE ${car.mode}`,
    `#define WHEEL_INERTIA ${car.wheelInertia}`,
    `#define OCV_RECORDS ${car.ocv.length / 5}`,
    `#define RESISTANCE_RECORDS ${car.resistance.length / 5}`,
    numbers('BLOCK', car.block),
    numbers('OCV', car.ocv),
    numbers('RESISTANCE', car.resistance),
    numbers('START', car.start),
    numbers('SCALES', car.scales),
    numbers(
      'LEVEL_VALUE',
      levels.map(level => level.value),
    ),
    `int LEVEL_STATE[] = ${braces(levels.map(level => level.state))};`,
    `int LEVEL_STOP[] = ${braces(levels.map(level => Number(level.stop)))};`,
    `const char *LEVEL_NAME[] = ${quoted(levels.map(level => level.name))};`,
    `const char *QUADRATURE_NAME[] = ${quoted(QUADRATURES)};`,
    '',
  ].join('\n');
}
