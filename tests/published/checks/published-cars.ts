import type { Topic } from '../check.ts';
import { publishedCars } from '../published-cars.ts';
import type { PublishedCar } from '../published-cars.ts';

const SOURCE =
  'open data set of electric cars on sale in Poland, late 2020: makers’ times to 100 km/h, masses, peak powers and torques; 20 ' +
  'front- and rear-driven cars, all else by axlewatt’s defaults';

let memory: readonly PublishedCar[] | null = null;
const cars = (): readonly PublishedCar[] => (memory ??= publishedCars());

function quantile(numbers: readonly number[], share: number): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  return sorted[Math.round(share * (sorted.length - 1))] ?? Number.NaN;
}

export const published: Topic = {
  title: 'Cars with published times to 100 km/h',
  checks: [
    {
      id: 'cars.median',
      what: 'computed over published time, median',
      source: SOURCE,
      expected: 1,
      computed: () =>
        quantile(
          cars().map(car => car.computed / car.published),
          0.5,
        ),
      unit: '1',
      tolerance: { absolute: 0.1 },
    },
    {
      id: 'cars.tenth',
      what: 'computed over published time, 10 % of the cars below',
      source: SOURCE,
      expected: 1,
      computed: () =>
        quantile(
          cars().map(car => car.computed / car.published),
          0.1,
        ),
      unit: '1',
      tolerance: { absolute: 0.2 },
    },
    {
      id: 'cars.ninetieth',
      what: 'computed over published time, 10 % of the cars above',
      source: SOURCE,
      expected: 1,
      computed: () =>
        quantile(
          cars().map(car => car.computed / car.published),
          0.9,
        ),
      unit: '1',
      tolerance: { absolute: 0.2 },
    },
    {
      id: 'cars.bound',
      what: 'computed time over the least at peak power without losses: the middle of 1.31 to 1.86, the span of all published cars',
      source: SOURCE,
      expected: 1.585,
      computed: () =>
        quantile(
          cars().map(car => car.computed / car.bound),
          0.5,
        ),
      unit: '1',
      tolerance: { absolute: 0.275 },
    },
  ],
};
