/** The part of a notebook in which its author answers: what stands below the heading that the front matter names. */
import type { Token } from 'markdown-it';
import { nearest } from '../../units/nearest.ts';
import type { FrontMatter } from './frontmatter.ts';
import { problemAt } from './located.ts';
import type { ProblemData } from './problem.ts';
import { plainText } from './plain-text.ts';

/** A heading: its words, its level, its place among the tokens. */
interface Heading {
  readonly words: string;
  readonly level: number;
  readonly at: number;
}

/**
 * The tokens from that heading on, up to the next one of its level or above, or to the next cell: from and to, the end left out. Null
 * where nothing is asked for.
 */
export function answerIn(
  tokens: readonly Token[],
  { answer }: FrontMatter,
): { readonly from: number; readonly to: number; readonly problem: ProblemData | null } | null {
  if (answer === undefined) return null;
  const headings = tokens.flatMap((token, at): Heading[] =>
    token.type === 'heading_open' && token.level === 0
      ? [{ words: plainText(tokens[at + 1]?.children ?? []).trim(), level: Number(token.tag.slice(1)), at }]
      : [],
  );
  const found = headings.find(({ words }) => words === answer.heading);
  if (found === undefined) {
    const words = headings.map(heading => heading.words);
    const message = `no heading of this notebook says "${answer.heading}"`;
    const problem = problemAt(answer.at, 'answer', message, 'the words of one heading', nearest(answer.heading, words));
    return { from: -1, to: -1, problem };
  }
  const next = headings.find(({ at, level }) => at > found.at && level <= found.level)?.at ?? tokens.length;
  return { from: found.at, to: next, problem: null };
}
