/** What holds for every figure of how far a car goes. */
import type { Caution } from '../kind.ts';

export const NO_PROMISE: Caution = {
  title: 'A range is no promise',
  text: 'Wind, rain and snow on the road, traffic, the foot of the driver, the tyres and the age of the pack each move it, and frost takes the most from short trips with a cold car. Keep a reserve, and do not plan to arrive empty, least of all in winter. A pack in the cold takes back and gives less: the car then slows down less by itself, and its friction brakes must do the whole work.',
  defers: 'your own drives on that way in that weather, with the energy read from a meter at the wall',
};
