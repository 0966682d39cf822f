// A car from JSON drives the WLTC: consumption and range at 20 and -10 degC.
import { readFileSync } from 'node:fs';
import { completeSurroundings, drive, range, scheduleNamed, SpecError, tripThrough } from 'axlewatt';
import { readCar } from 'axlewatt/notebook';

const text = readFileSync(process.argv[2] ?? new URL('car.json', import.meta.url), 'utf8');
try {
  const { car, notes } = readCar(text);
  for (const note of notes) console.log(`note: ${note}`);
  const trip = tripThrough('WLTC', [scheduleNamed('wltc')]);
  for (const celsius of [20, -10]) {
    const where = completeSurroundings({ temperature: celsius + 273.15 });
    // Consumption in J/m: 3.6 of them are a Wh/km.
    const { consumption, distance_missed: missed } = drive(car, trip, where).summary;
    const far = range(car, trip, where).summary.range;
    if (consumption === null || far === null) throw new Error('no answer');
    console.log(
      `${celsius} °C: ${(consumption / 3.6).toFixed(0)} Wh/km, ${(far / 1000).toFixed(0)} km, ${missed?.toFixed(1)} m missed`,
    );
  }
} catch (error) {
  if (!(error instanceof SpecError)) throw error;
  console.log(error.message);
}
