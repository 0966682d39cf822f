/** Colours of the page by what they are for, and those of its pictures by night. */
import { COLOUR, HAIR, INK, LINES, PAPER, QUIET } from '../../plots/kit/palette.ts';

/** Contrast of writing on its ground is at least 4.5 to 1 in both (WCAG 2.1, success criterion 1.4.3); tests/live/pictures.test.ts. */
export const DAY = {
  ink: INK,
  paper: PAPER,
  quiet: QUIET,
  hair: HAIR,
  desk: '#eceae5',
  edge: '#c9c4b8',
  link: '#0b5a86',
  code: '#f5f4f0',
  card: '#fcfbf9',
  words: '#3b454c',
  bad: '#8c1d16',
  bads: '#fdf1ef',
  alarm: '#b3261e',
  pale: '#e3b9b5',
  good: '#1f5e3a',
  mind: '#b98a00',
  minds: '#fdf6e0',
  band: '#9db8c7',
  bar: '#6f7b83',
  tag: '#4a545b',
  turned: '#f2f7fa',
} as const;

const NIGHT: { readonly [name in keyof typeof DAY]: string } = {
  ink: '#e6eaec',
  paper: '#171b1e',
  quiet: '#a3aeb6',
  hair: '#343c42',
  desk: '#0e1113',
  edge: '#4a535a',
  link: '#7cc4ee',
  code: '#1f2529',
  card: '#1c2125',
  words: '#c3ccd2',
  bad: '#ff9c92',
  bads: '#2d1a18',
  alarm: '#e4574c',
  pale: '#5c2b27',
  good: '#7fd0a3',
  mind: '#d3a520',
  minds: '#29230f',
  band: '#3f6a82',
  bar: '#808c95',
  tag: '#aab4bb',
  turned: '#15252e',
};

/** Lines of pictures by night, in the order of `LINES`. */
const LINES_BY_NIGHT = ['#aab4f0', '#f08a4b', '#4fc08f', '#d39ac8', '#5fb9ea', '#d0a97a'] as const;

/** Fills too dark to be seen by night; white writing stands on them. */
const FILLS_BY_NIGHT = [
  [COLOUR['motor torque'], '#5f6ab0'],
  [COLOUR.driveline, '#8a6328'],
  [COLOUR['pack current'], '#28835b'],
] as const;

function declared(colours: { readonly [name in keyof typeof DAY]: string }): string {
  return Object.entries(colours)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';');
}

/** A drawing carries its colours as attributes, over which any rule of a style goes. */
function inPictures(from: string, to: string, what: readonly string[]): string {
  return what
    .map(
      each =>
        `.picture:not(.chart) ${each.replaceAll('@', from)}{${each.includes('stroke') ? 'stroke' : 'fill'}:${to}}`,
    )
    .join('');
}

/** The strips of cards carry theirs in a style of their own. */
function inStrips(from: string, to: string): string {
  return `.strip [style*="background:${from}"]{background:${to}!important}`;
}

export const COLOURS = `
:root{color-scheme:light;${declared(DAY)}}
@media screen and (prefers-color-scheme:dark){
:root{color-scheme:dark;${declared(NIGHT)}}
${inPictures(INK, NIGHT.ink, ['[fill="@"]', '[stroke="@"]'])}
${inPictures(QUIET, NIGHT.quiet, ['[fill="@"]', '[stroke="@"]'])}
${inPictures(HAIR, NIGHT.hair, ['[fill="@"]', '[stroke="@"]'])}
${inPictures(PAPER, NIGHT.paper, ['rect[fill="@"]', 'path[fill="@"]', '[stroke="@"]'])}
${LINES.map(({ colour }, k) => inPictures(colour, LINES_BY_NIGHT[k] ?? colour, ['[stroke="@"]', 'text[fill="@"]'])).join('')}
${FILLS_BY_NIGHT.map(([from, to]) => inPictures(from, to, [':not(text)[fill="@"]']) + inStrips(from, to)).join('')}
${inPictures('#7c2e06', '#f4a27a', ['text[fill="@"]'])}
.picture.chart [role=img]{background:#fff;padding:.5rem}
}
`.trim();
