/** The lines between two `---` at the top of a notebook: its title, its units, its samples, where it answers. */
import type { System } from '../../units.ts';
import { type LocatedMap, type Place, problemAt, readYaml } from './located.ts';
import { nearest } from '../../units/nearest.ts';
import { placeOf, type SourceText } from './place.ts';
import { NotebookProblem, type ProblemData } from './problem.ts';

export interface FrontMatter {
  /** '' where none is given. */
  readonly title: string;
  readonly system: System;
  /** Samples of uncertain inputs for each run; undefined where nothing is said. */
  readonly samples?: number;
  /** The heading below which the notebook itself answers, and where it is named; undefined where nothing is said. */
  readonly answer?: { readonly heading: string; readonly at: Place };
}

export interface ReadFrontMatter {
  readonly matter: FrontMatter;
  /** Lines it takes, both fences included; 0 for a notebook without one. */
  readonly lines: number;
  readonly problems: readonly ProblemData[];
}

const KEYS = ['title', 'units', 'samples', 'answer'] as const;

/** As many as anybody could wait for. */
const MOST_SAMPLES = 1_000_000;
const SYSTEMS: readonly System[] = ['metric', 'imperial'];
export const NO_FRONT_MATTER: FrontMatter = { title: '', system: 'metric' };

/** Reads the front matter. Never throws: a key with a problem counts as left out. */
export function readFrontMatter(text: SourceText): ReadFrontMatter {
  if (text.lines[0]?.trimEnd() !== '---') return { matter: NO_FRONT_MATTER, lines: 0, problems: [] };
  const end = text.lines.findIndex((line, k) => k > 0 && /^(---|\.\.\.)\s*$/.test(line));
  if (end < 0) {
    // Three dashes may also draw a line across the page; a key right below says that front matter was meant.
    if (!/^[A-Za-z_]+:/.test(text.lines[1] ?? '')) return { matter: NO_FRONT_MATTER, lines: 0, problems: [] };
    const problem = problemAt(placeOf(text, 1), '', 'the front matter is never closed', 'a line "---" after it');
    return { matter: NO_FRONT_MATTER, lines: 0, problems: [problem] };
  }
  try {
    const map = readYaml(text.lines.slice(1, end).join('\n'), { file: text.file, line: 2 });
    return { ...readKeys(map), lines: end + 1 };
  } catch (error) {
    if (!(error instanceof NotebookProblem)) throw error;
    return { matter: NO_FRONT_MATTER, lines: end + 1, problems: [error.data] };
  }
}

function readKeys(map: LocatedMap): { matter: FrontMatter; problems: ProblemData[] } {
  const problems: ProblemData[] = [];
  let { title, system } = NO_FRONT_MATTER;
  let samples: number | undefined;
  let answer: FrontMatter['answer'];
  for (const { key, value } of map.entries) {
    const name = key.text;
    if (!KEYS.some(known => known === name)) {
      problems.push(problemAt(key, '', `unknown key "${name}"`, KEYS.join(' or '), nearest(name, KEYS)));
    } else if (value.kind !== 'scalar') {
      problems.push(problemAt(value, name, 'is not a single value', 'a word or a text'));
    } else if (name === 'title') {
      title = value.text.trim();
    } else if (name === 'answer') {
      answer = { heading: value.text.trim(), at: value };
    } else if (name === 'samples') {
      const count = /^\d+(?:[eE]\+?\d+)?$/u.test(value.text) ? Number(value.text) : Number.NaN;
      if (count <= MOST_SAMPLES) samples = count;
      else
        problems.push(
          problemAt(value, name, `"${value.text}" is no such number`, `a whole number from 0 to ${MOST_SAMPLES}`),
        );
    } else {
      const found = SYSTEMS.find(word => word === value.text);
      if (found !== undefined) system = found;
      else {
        const expected = SYSTEMS.join(' or ');
        problems.push(problemAt(value, name, `unknown units "${value.text}"`, expected, nearest(value.text, SYSTEMS)));
      }
    }
  }
  const matter = { title, system, ...(samples !== undefined && { samples }), ...(answer && { answer }) };
  return { matter, problems };
}
