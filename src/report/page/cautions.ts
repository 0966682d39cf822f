/** What must be read before anything here is acted on. */
import { numbers } from '../../runs/series.ts';
import type { Input } from '../../model/fields/input.ts';
import type { Result } from '../../runs/result.ts';
import type { Caution } from '../kind.ts';
import { reportOf } from '../kinds.ts';
import { type Html, html } from './html.ts';

/** V dc above which a circuit is of voltage class B (ISO 6469-3). */
const CLASS_B = 60;

/** The section of cautions; the voltage of the packs in these results is named in it. @param inputs as for `cautions`. */
export function cautionsSection(results: readonly Result[], inputs: readonly Input[]): Html {
  return html`<section class="cautions" aria-labelledby="cautions">
<details class="fold" open><summary><h2 id="cautions">Cautions</h2></summary>
<dl>
${cautions(results, inputs).map(
  caution => html`<dt>${caution.title}</dt>
<dd>${caution.text} <span class="defers">Has the last word: ${caution.defers}.</span></dd>
`,
)}</dl>
</details></section>
`;
}

const TOWING: Caution = {
  title: 'A trailer must be allowed, braked and coupled',
  text: 'Only its mass, drag and rolling resistance are in these figures. Its brakes, the coupling, stability and whether this car may tow at all are not looked at.',
  defers: 'the papers of car and trailer, the maker of the coupling, and the law on the masses of trailers',
};

/** @param results in which the highest voltage is looked for. @param inputs that say whether a car pulls a trailer. */
export function cautions(results: readonly Result[], inputs: readonly Input[]): readonly Caution[] {
  const tows = inputs.some(({ path }) => path.includes('.trailer.'));
  const volts = highest(results);
  const here =
    volts === null || volts <= CLASS_B ? '' : ` The pack in these results stands at up to ${Math.round(volts)} V.`;
  return [
    {
      title: `More than ${CLASS_B} V dc can kill`,
      text: `It does so without a sound and also with the key out.${here} Work on it is for people who are trained and allowed to do it where you are.`,
      defers: 'ISO 6469-3 (voltage class B: above 60 V and up to 1500 V dc) and the electrical code of your country',
    },
    {
      title: 'Currents and voltages here choose no part',
      text: 'Fuses, contactors, cables and cells are not picked from these figures alone.',
      defers: 'the data sheet of the maker of the part, and a licensed professional',
    },
    ...new Set(results.flatMap(result => reportOf(result).cautions ?? [])),
    ...(tows ? [TOWING] : []),
    {
      title: 'Full-pedal starts belong on a closed course',
      text: 'Do not try these times on a public road.',
      defers: 'the traffic law and the rules of the course; ISO 8715 says how an electric car is measured',
    },
    {
      title: 'A converted car must be approved again',
      text: 'Ask the authority before parts are bought: power, mass and axle loads may each be limited.',
      defers: 'the approval law of your country; UN Regulation No. 100 is what electric drives are commonly held to',
    },
    {
      title: 'Brakes, tyres, suspension and axles must suit the new masses',
      text: 'They were made for the car as it was. A qualified person has to judge them on the car as it will be.',
      defers:
        'that person, the permitted axle loads on the plate, UN Regulation No. 13-H for brakes and the ISO 4000-1 load index for tyres',
    },
    {
      title: 'Figures are predictions',
      text: 'They are no better than the inputs listed above. Promise in writing only what was measured on the finished car.',
      defers: 'the measurement, with its uncertainty stated as in JCGM 100',
    },
  ];
}

/** Highest pack voltage in the results, V; null when none has one. */
function highest(results: readonly Result[]): number | null {
  const traces = results
    .flatMap(({ series }) => [series['time'], series['distance']])
    .filter(series => series?.['pack_voltage_V'] !== undefined);
  const peaks = traces.map(series =>
    numbers(series ?? {}, 'pack_voltage_V').reduce((most, volts) => Math.max(most, volts), 0),
  );
  return peaks.length === 0 ? null : Math.max(...peaks);
}
