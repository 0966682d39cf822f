/** What to write instead, where the command was called wrongly. */
import { nearest } from '../units/nearest.ts';

/** What each command wants, with an example. */
const WANTED: { readonly [command: string]: string } = {
  run: 'which notebook? As in: axlewatt run first.md (axlewatt new first.md writes one)',
  check: 'which notebook? As in: axlewatt check first.md',
  open: 'which notebook, or folder of notebooks? As in: axlewatt open first.md',
  new: 'which file is to be written? As in: axlewatt new first.md',
  gather: 'which parts? As in: axlewatt gather out/parts',
};

/**
 * The complaint of the reader of arguments in words that say what to do; its own where nothing better is known.
 * @param help of the command, which lists its options.
 */
export function usageInWords(message: string, args: readonly string[], help: string): string {
  const command = args.find(each => !each.startsWith('-')) ?? '';
  if (message.startsWith('Not enough non-option arguments')) return WANTED[command] ?? message;
  const [, bare] = /^Not enough arguments following: (.*)$/u.exec(message) ?? [];
  if (bare !== undefined) return `--${bare} stands without its value`;
  const [, listed] = /^Unknown arguments?: (.*)$/u.exec(message) ?? [];
  if (listed === undefined) return message;
  const unknown = listed.split(', ');
  if (unknown.includes(command) && WANTED[command] === undefined) return noCommand(command);
  const options = [...help.matchAll(/--([a-z][a-z-]*)/gu)].map(([, name = '']) => name);
  return unknown.map(name => noOption(name, options)).join('; ');
}

function noCommand(word: string): string {
  const example = /\.md$/iu.test(word) ? `; did you mean axlewatt run ${word}?` : '';
  return `"${word}" is no command: they are ${[...Object.keys(WANTED), 'cells'].join(', ')}${example}`;
}

function noOption(name: string, options: readonly string[]): string {
  const meant = nearest(name, options);
  return `there is no option --${name}${meant === '' ? '' : `; did you mean --${meant}?`}`;
}
