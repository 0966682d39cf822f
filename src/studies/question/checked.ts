/** What a program asks a study, checked before anything runs: a word that is none would be passed over in silence, or fail far inside. */
import { each, FINITE, group, refused, TEXT, within } from '../../runs/rules.ts';
import type { Rule } from '../../runs/rules.ts';
import type { Axis, AxisSpec } from './axis.ts';
import type { Study } from './figures.ts';

/** A whole number from `low` to `high`. */
export function wholeWithin(low: number, high: number): Rule {
  const range = within(low, high);
  return (value, path) => {
    range(value, path);
    if (!Number.isInteger(value)) throw refused(path, value, `a whole number from ${low} to ${high}`);
  };
}

/** Whole numbers that a generator begins at. */
export const SEED = wholeWithin(0, Number.MAX_SAFE_INTEGER);

/** @throws SpecError for what is no study. */
export function checkStudy(study: Study): void {
  const given: Partial<Study> | null | undefined = study;
  if (!Array.isArray(given?.figures) || !Array.isArray(given.subject?.questions))
    throw refused('study', study, 'what studyOf gives');
}

const UNCERTAIN: Rule = (value, path) => {
  if (typeof value !== 'object' || value === null)
    throw refused(path, value, 'an uncertain input, as uncertainOf gives it');
  const { path: at, value: best, spread }: { path?: unknown; value?: unknown; spread?: unknown } = value;
  TEXT(at, `${path}.path`);
  FINITE(best, `${path}.value`);
  if (typeof spread !== 'object' || spread === null)
    throw refused(`${path}.spread`, spread, "a spread, such as { kind: 'normal', standard: 20 }");
};

/** Uncertain inputs. */
export const UNCERTAINS = each(UNCERTAIN);

const AXES = each((value, path) => {
  if (typeof value !== 'object' || value === null)
    throw refused(path, value, "an axis, such as { path: 'drive.ratio', values: [8, 9] }");
  if ('changes' in value && typeof value.changes === 'function') return;
  group<AxisSpec>({ path: TEXT, values: LIST })(value, path);
});

const LIST: Rule = (value, path) => {
  if (!Array.isArray(value) && !ArrayBuffer.isView(value)) throw refused(path, value, 'a list of numbers in SI');
  const strange = Array.isArray(value) ? value.findIndex(one => typeof one !== 'number') : -1;
  if (strange >= 0) FINITE((value as readonly unknown[])[strange], `${path}[${strange}]`);
};

/** @param most of them there may be. @throws SpecError for what are no axes. */
export function checkAxes(along: readonly (Axis | AxisSpec)[], most: number): void {
  AXES(along, 'along');
  if (along.length === 0 || along.length > most)
    throw refused('along', along, `one axis to ${most} of them, not ${along.length}`);
}
