// 0 to 100 km/h over the friction of the tyres, and from which friction on the tyre wastes nothing.
import { questionOf } from 'axlewatt';
import { studyOf, sweep } from 'axlewatt/studies';

const question = questionOf({
  car: 'runabout',
  kind: 'launch',
  spec: {
    mass: 1180,
    tyres: { size: '175/70 R 13' },
    drive: { axle: 'rear', unit: 'unit_150kw', ratio: 8.6 },
    pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
  },
});
const study = studyOf([question], ['launch.time', 'launch.grip_withheld']);
const values = Array.from({ length: 10 }, (_, i) => 0.5 + 0.1 * i);
const { series, verdicts = [] } = sweep(study, [{ path: 'tyres.dryPeak', values }]);
const column = (key: string): readonly number[] => Array.from(series['rows']?.[key]?.values ?? [], Number);
const [times, withheld] = [column('launch_time'), column('launch_grip_withheld')];
for (const [row, friction] of values.entries())
  console.log(
    `${friction.toFixed(1)}: ${times[row]?.toFixed(2)} s, ${(100 * (withheld[row] ?? 0)).toFixed(1)} % held back by grip`,
  );
for (const verdict of verdicts) console.log(verdict);
