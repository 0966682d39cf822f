/**
 * A coast-down of a car whose motor and gears turned along measures their losses without load together with rolling resistance
 * and drag. They are in the road load then, and are taken out of the drive so that nothing counts twice.
 */
import { nth } from '../../columns.ts';
import type { DriveUnit } from '../car.ts';
import type { LossMap } from './efficiency-map.ts';

type Losses = DriveUnit['losses'];

/**
 * The losses that a measured road load leaves over: windage was there whatever the motor is, iron loss only with flux.
 * @param share of the iron loss that was measured; of a map, which does not tell the two apart, of its loss without torque.
 */
export function withoutContained(losses: Losses, share: number): { readonly losses: Losses; readonly notes: string[] } {
  const { map } = losses;
  if (map === undefined) return { losses: { ...losses, iron: (1 - share) * losses.iron, windage: 0 }, notes: [] };
  const left = mapWithoutContained(map, share);
  return { losses: { ...losses, map: left.map }, notes: left.notes };
}

/** The loss without torque stays as it is at standstill (the inverter's, as nothing turns there); its rise with speed goes. */
function mapWithoutContained(map: LossMap, share: number): { readonly map: LossMap; readonly notes: string[] } {
  const columns = map.torque.length;
  const idle = map.torque.indexOf(0);
  const still = nth(map.loss, idle);
  const rise = map.speed.map((_, i) => Math.max(0, nth(map.loss, i * columns + idle) - still));
  const loss = map.loss.map((each, at) => each - share * nth(rise, Math.floor(at / columns)));
  const most = (share * Math.max(...rise)).toPrecision(3);
  const notes = [
    `the loss of the map without torque, beyond that at standstill (${Number(most)} W at most), is in the measured road load and taken out of the map`,
  ];
  const below = loss.filter(each => each < 0).length;
  if (below > 0) notes.push(`${below} points of the map lose less than without torque: they are taken as 0`);
  return { map: { ...map, loss: loss.map(each => Math.max(0, each)) }, notes };
}
