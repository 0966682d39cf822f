/**
 * A Vega-Lite spec to SVG text, without a browser. The expressions of the spec are interpreted, never turned into code;
 * nothing is loaded; the SVG is refused when it points anywhere outside itself.
 */
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';
import * as vega from 'vega';
import { type Drawing, DrawingError } from './drawing.ts';
import { escape } from './html.ts';
import { type Trace, tracesOf } from './traces.ts';

/**
 * Draws `spec`. `prefix` makes the ids inside the SVG unique in the page that takes it up. Throws DrawingError when the
 * spec can not be drawn or its drawing would load something.
 */
export async function draw(spec: object, prefix: string): Promise<Drawing> {
  const warnings: string[] = [];
  const log = logger(warnings);
  try {
    // The library's own type of a spec is too wide to be built up in parts; what is wrong in one is told when it is compiled.
    const compiled = compile(spec as TopLevelSpec, { logger: log }).spec;
    const runtime = vega.parse(compiled, undefined, { ast: true });
    const view = new vega.View(runtime, {
      renderer: 'none',
      expr: expressionInterpreter,
      loader: denied,
      logger: log,
    });
    const svg = tidied(await view.toSVG(), prefix, tracesOf(view));
    view.finalize();
    return { svg, warnings };
  } catch (error) {
    if (error instanceof DrawingError) throw error;
    throw new DrawingError(error instanceof Error ? error.message : String(error), { cause: error });
  }
}

/** A drawing as a page takes it up. @throws DrawingError where it would load something. */
export function tidied(drawing: string, prefix: string, traces: readonly Trace[]): string {
  const svg = tidy(withTraces(drawing, traces), prefix);
  const leak = outside(svg);
  if (leak !== null) throw new DrawingError(`the picture would load ${leak}`);
  return svg;
}

/** Marks the lines that say something: `traces.ts`. */
function withTraces(svg: string, traces: readonly Trace[]): string {
  if (traces.every(trace => trace === null)) return svg;
  let line = -1;
  const said: Trace[] = [];
  const marked = svg.replace(/<g class="mark-line /g, group => {
    line += 1;
    const trace = traces[line] ?? null;
    return trace === null ? group : `<g data-trace="${said.push(trace) - 1}" class="mark-line `;
  });
  return marked.replace('<svg ', `<svg data-traces="${escape(JSON.stringify(said))}" `);
}

const refuse = (uri: string): Promise<never> => Promise.reject(new DrawingError(`external data is off: ${uri}`));

/** The default loader of Vega reads local files and follows any link; this one does neither. */
export const denied = {
  options: {},
  load: refuse,
  http: refuse,
  file: refuse,
  sanitize: (uri: string) => Promise.resolve({ href: uri.startsWith('#') ? uri : '#blocked' }),
};

function logger(warnings: string[]): vega.LoggerInterface {
  const keep = (...words: readonly unknown[]): vega.LoggerInterface => {
    warnings.push(words.map(word => (word instanceof Error ? word.message : String(word))).join(' '));
    return log;
  };
  const ignore = (): vega.LoggerInterface => log;
  const log = { level: ignore, error: keep, warn: keep, info: ignore, debug: ignore } as vega.LoggerInterface;
  return log;
}

/** Attributes that say nothing in a picture that is read by eye only; its words stand beside it. */
const IDLE = / (?:class|role|aria-[a-z]+|pointer-events|font-family)="[^"]*"/g;

/**
 * Leaves out what is not seen, shortens coordinates to hundredths of a pixel, and gives ids that are unique in the page
 * and the same in each run (the library counts them on from picture to picture).
 */
function tidy(svg: string, prefix: string): string {
  const font = / font-family="[^"]*"/.exec(svg)?.[0] ?? '';
  const ids = new Map([...svg.matchAll(/<[^>]* id="([^"]*)"/g)].map(([, id = ''], i) => [id, `${prefix}-${i + 1}`]));
  return svg
    .replace(/<path class="(?:fore|back)ground" [^>]*d="(?:M0,0h0v0h0Z)?"[^>]*\/>/g, '')
    .replace(/<[^>]*>/g, tag =>
      tag
        .replace(IDLE, '')
        .replace(/ (d|transform|x|y|x1|x2|y1|y2|width|height)="[^"]*"/g, shorten)
        .replace(/ id="([^"]*)"/g, (whole, id: string) => (ids.has(id) ? ` id="${ids.get(id) ?? ''}"` : whole))
        .replace(/url\(#([^)"']*)\)/g, (whole, id: string) => (ids.has(id) ? `url(#${ids.get(id) ?? ''})` : whole)),
    )
    .replace('<svg ', `<svg aria-hidden="true" focusable="false"${font} `);
}

function shorten(attribute: string): string {
  return attribute.replace(/-?\d+\.\d{3,}(e-?\d+)?/g, number => String(Math.round(Number(number) * 100) / 100));
}

/** The first thing in an SVG that reaches outside it or could run, or null. */
export function outside(svg: string): string | null {
  const element = /<(image|script|foreignObject|iframe|use|style|animate|set)\b/i.exec(svg);
  if (element !== null) return `an element <${element[1] ?? ''}>`;
  const handler = /<[^>]*\s(on[a-z]+)\s*=/i.exec(svg);
  if (handler !== null) return `a handler ${handler[1] ?? ''}`;
  const link =
    /<[^>]*?\s(?:xlink:)?(?:href|src)\s*=\s*"(?!#)([^"]*)"/i.exec(svg) ??
    /url\((?!(?:&quot;|['"])?#)([^)]*)\)/i.exec(svg);
  return link === null ? null : (link[1] ?? 'something');
}
