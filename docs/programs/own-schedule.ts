// A schedule of one's own, with a hill and a stop: energy, and whether the car keeps up.
import { completeCar, completeSurroundings, drive, scheduleOf, ScheduleError, tripThrough } from 'axlewatt';

const { car } = completeCar({
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit: 'unit_60kw', ratio: 9 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 1 },
});
try {
  // s, m/s, and rise over run from each point to the next.
  const hill = scheduleOf({
    title: 'over the hill',
    time: [0, 10, 70, 130, 140],
    speed: [0, 22, 22, 22, 0],
    slope: [0, 0.08, -0.08, 0],
  });
  const trip = tripThrough('there and back', [hill, { kind: 'stop', seconds: 600 }, hill]);
  const { summary, warnings } = drive(car, trip, completeSurroundings({ temperature: 283.15 }));
  const { energy, distance, time_too_slow: slow, time_lost: late, distance_missed: missed, limiter } = summary;
  console.log(`${((distance ?? 0) / 1000).toFixed(2)} km with ${((energy ?? 0) / 3.6e6).toFixed(2)} kWh`);
  console.log(
    `too slow for ${slow?.toFixed(1)} s, arrives ${late?.toFixed(1)} s late, ${missed?.toFixed(1)} m missed, held back by ${limiter}`,
  );
  for (const warning of warnings) console.log(warning);
} catch (error) {
  if (!(error instanceof ScheduleError)) throw error;
  console.log(error.message);
}
