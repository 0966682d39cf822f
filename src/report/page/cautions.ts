/** What must be read before anything here is acted on. */
import { numbers } from '../../plots/kit/series.ts';
import type { Result } from '../../runs/result.ts';
import { type Html, html } from './html.ts';

/** V dc above which a circuit is of voltage class B (ISO 6469-3). */
const CLASS_B = 60;

interface Caution {
  readonly title: string;
  readonly text: string;
  /** What has the last word. */
  readonly defers: string;
}

/** The section of cautions; the voltage of the packs in these results is named in it. */
export function cautionsSection(results: readonly Result[]): Html {
  return html`<section class="cautions" aria-labelledby="cautions">
<h2 id="cautions">Cautions</h2>
<dl>
${cautions(results).map(
  caution => html`<dt>${caution.title}</dt>
<dd>${caution.text} <span class="defers">Has the last word: ${caution.defers}.</span></dd>
`,
)}</dl>
</section>
`;
}

function cautions(results: readonly Result[]): readonly Caution[] {
  const volts = highest(results);
  const has = (...kinds: readonly string[]): boolean => results.some(({ kind }) => kinds.includes(kind));
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
    ...(has('charge') ? [CHARGING] : []),
    ...(has('drive', 'range', 'standard', 'steady') ? [RANGE] : []),
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

const CHARGING: Caution = {
  title: 'Charging loads a circuit for hours',
  text: 'An outlet that bears a current for a while can burn under it overnight. Cable, outlet, fuse and residual-current protection are chosen, and fixed wiring and wall boxes installed, by a licensed electrician. A pack is charged only under a battery management system that stops at the limits of its cells.',
  defers: 'the electrical code of your country, IEC 60364-7-722 or NEC Article 625 (from memory), and that electrician',
};

const RANGE: Caution = {
  title: 'A range is no promise',
  text: 'Wind, rain and snow on the road, traffic, the foot of the driver, the tyres and the age of the pack each move it, and frost takes the most from short trips with a cold car. Keep a reserve, and do not plan to arrive empty, least of all in winter. A pack in the cold takes back and gives less: the car then slows down less by itself, and its friction brakes must do the whole work.',
  defers: 'your own drives on that way in that weather, with the energy read from a meter at the wall',
};

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
