/** The mark by which a report is known as one of ours, with the names of the files that were written with it. */
import { finished, type Html, html } from './page/html.ts';

const GENERATOR = '<meta name="generator" content="axlewatt">';

/** @param files names of what is written beside the report. */
export function reportMark(files: readonly string[]): Html {
  const list = files.map(name => encodeURIComponent(name).replaceAll("'", '%27')).join(' ');
  return html`${finished(GENERATOR)}${files.length === 0 ? null : html`\n<meta name="axlewatt-files" content="${list}">`}`;
}

/** Names in the mark of a report; null where the text is no report of ours. @param head its beginning. */
export function filesOfReport(head: string): readonly string[] | null {
  if (!head.startsWith('<!DOCTYPE html>') || !head.includes(GENERATOR)) return null;
  const list = /<meta name="axlewatt-files" content="(?<list>[^"]*)">/u.exec(head)?.groups?.['list'] ?? '';
  return list === '' ? [] : list.split(' ').map(decoded);
}

function decoded(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    // Not as we write it: the name of no file.
    return '';
  }
}
