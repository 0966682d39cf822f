// A drive unit by its torque table, from a file with units or by columns in SI.
import { completeCar, completeSurroundings, launch } from 'axlewatt';
import { readTorqueTable } from 'axlewatt/notebook';

const file = 'speed [rpm],torque [N m]\n0,240\n3000,240\n6000,160\n9000,90\n12000,40\n';
const { table } = readTorqueTable(file, 'unit.csv');
const { car, notes, inputs } = completeCar({
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit: { tableSpeed: table.speed, tableTorque: table.torque }, ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
});
for (const note of notes) console.log(`note: ${note}`);
for (const { path, value, origin } of inputs) if (path === 'drive.unit.max_speed') console.log(path, value, origin);
const { summary, reasons, bands } = launch(car, completeSurroundings({}));
const time = summary.time_to_100_km_h;
console.log(time === null ? reasons['time_to_100_km_h'] : `0 to 100 km/h in ${time.toFixed(2)} s`);
for (const { from, to, limiter } of bands) console.log(`${from.toFixed(1)} to ${to.toFixed(1)} s: ${limiter}`);
