// A web page with one picture of a launch, and the words for those who do not see it.
import { writeFileSync } from 'node:fs';
import { completeCar, completeSurroundings, launch } from 'axlewatt';
import { picture, pictureNames } from 'axlewatt/report';

const { car } = completeCar({
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit: 'unit_100kw', ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
});
const result = launch(car, completeSurroundings({ surface: 'wet' }));
console.log(pictureNames(result).join(', '));
const { svg, title, caption } = await picture(result, 'trace', { width: 640 });
const page = `<!doctype html><html lang="en"><meta charset="utf-8"><title>${title}</title>
<figure>${svg}<figcaption>${caption}</figcaption></figure></html>\n`;
writeFileSync(process.argv[2] ?? 'launch.html', page);
