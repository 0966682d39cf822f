/** One picture of a result, as its report has it, for whoever has a result and no notebook. */
import { SpecError } from '../model/fields/spec-error.ts';
import type { Result } from '../runs/result.ts';
import { group, oneOf, optional, refused, TEXT, within } from '../runs/rules.ts';
import type { System } from '../units.ts';
import { nearest } from '../units/nearest.ts';
import { reportOf } from './kinds.ts';
import { draw } from './page/render.ts';

/** How a picture is drawn. */
export interface PictureOptions {
  readonly system?: System;
  /** CSS px across, more or less; default 720. */
  readonly width?: number;
}

export interface DrawnPicture {
  /** What it is, a few words. */
  readonly title: string;
  /** What is seen in it, in sentences: for those who do not see it. */
  readonly caption: string;
  /** A whole SVG element: for a page, or a file. It loads nothing. */
  readonly svg: string;
  /** The Vega-Lite spec that it is drawn from: for a page with a renderer of its own. */
  readonly spec: object;
}

/** Names of the pictures for which a result has the numbers: `trace`, `energy`, ... @throws SpecError for what is no result. */
export function pictureNames(result: Result): readonly string[] {
  checkResult(result);
  return (reportOf(result).pictures?.(result, 'metric') ?? []).map(([name]) => name);
}

/**
 * Draws one of them, by the code that draws it in a report.
 * @throws SpecError for what is no result, a name that the result has no picture of, and options that can not be.
 */
export async function picture(result: Result, name: string, options: PictureOptions = {}): Promise<DrawnPicture> {
  checkResult(result);
  TEXT(name, 'name');
  OPTIONS(options, 'options');
  const { system = 'metric', width = 720 } = options;
  const all = reportOf(result).pictures?.(result, system) ?? [];
  const found = all.find(([own]) => own === name)?.[1];
  if (found === undefined) {
    const names = all.map(([own]) => own);
    const known = names.length === 0 ? 'it has none' : `it has ${names.join(', ')}`;
    const message = `name: a ${result.kind} has no picture "${name}"; ${known}`;
    throw new SpecError('name', message, names.join(', '), nearest(name, names), 'choice');
  }
  const spec = found.spec(width);
  const { svg } = await draw(spec, name);
  return { title: found.title, caption: found.caption, svg: standing(svg, found.title), spec };
}

const OPTIONS = group<PictureOptions>({
  system: optional(oneOf(['metric', 'imperial'])),
  width: optional(within(50, 10_000, 'px')),
});

function checkResult(result: Result): void {
  const given: Partial<Result> | null | undefined = result;
  if (typeof given?.kind !== 'string' || typeof given.series !== 'object')
    throw refused('result', result, 'what a run or a study gives');
}

/** In a page the words beside it say what it is; by itself it says so, and is a file. */
function standing(svg: string, title: string): string {
  const words = title.replace(/[&<>"]/gu, sign => `&#${sign.charCodeAt(0)};`);
  const named = svg.replace('<svg aria-hidden="true" focusable="false"', `<svg role="img" aria-label="${words}"`);
  return named.includes('xmlns=') ? named : named.replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ');
}
