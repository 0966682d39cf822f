/** Files that the notebooks may name; all invented. */

const log = [
  'time [s],speed [km/h],altitude [m]',
  ...Array.from({ length: 120 }, (_, k) => {
    const speed = 45 * (1 - Math.cos((2 * Math.PI * k) / 60)) * 0.5;
    return `${k},${speed.toFixed(2)},${(300 + 4 * Math.sin(k / 20)).toFixed(2)}`;
  }),
].join('\n');

const map = [
  'speed [rpm],torque [N m],efficiency [%]',
  ...[500, 2000, 4000, 8000, 12_000].flatMap(speed =>
    [10, 50, 120, 250].map(
      torque => `${speed},${torque},${(82 + 10 * Math.exp(-(((speed - 5000) / 6000) ** 2))).toFixed(2)}`,
    ),
  ),
].join('\n');

const torque = ['speed [rpm],torque [N m]', '0,250', '4000,250', '8000,125', '12000,70'].join('\n');

export const files: { readonly [name: string]: string } = { 'way.csv': log, 'map.csv': map, 'torque.csv': torque };
