/** A pack that can not even give what drive units and consumers take without any torque: nothing that would follow means anything. */

/** Of what the pack gives: so much more is round-off at a limit of the pack. */
const MARGIN = 1e-6;

/** Why a car can not go on; '' where it can. @param gives W, the most of the pack. @param asked W that are drawn without any torque. */
export function whyStarved(gives: number, asked: number): string {
  return isStarved(gives, asked) ? starvedWords(gives, asked) : '';
}

/** Whether it can not. */
export function isStarved(gives: number, asked: number): boolean {
  return asked > (1 + MARGIN) * gives;
}

export function starvedWords(gives: number, asked: number): string {
  const kW = (power: number): string => `${(power / 1000).toPrecision(3)} kW`;
  const most = gives > 0 ? `no more than ${kW(gives)}` : 'nothing';
  return `the pack gives ${most}: drive unit and consumers take ${kW(asked)} without any torque`;
}
