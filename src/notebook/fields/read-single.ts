/** Reads a field that is no group: a number, a word, a text, the name of a cell, or a list of these. */
import type { ChoiceField, Field, GroupField, GroupsField, ReferenceField } from '../../model/fields/field.ts';
import type { TextField, WordsField } from '../../model/fields/field.ts';
import { type LocatedNode, type LocatedScalar } from '../document/located.ts';
import { nearest } from '../../units/nearest.ts';
import { describeField } from './describe.ts';
import type { Draft } from './draft.ts';
import type { Findings } from './findings.ts';
import { readNumbers } from './read-list.ts';
import { readNumber } from './read-number.ts';
import { MOST_WORDS, wordsIn } from './read-words.ts';
import { choiceMeant, listMeant } from './slips.ts';

/** Characters of a text. */
const LONGEST = 1000;

export type SingleField = Exclude<Field, GroupField | GroupsField>;

/** Puts the value of `node` into the draft, or says what is wrong with it. */
export function readSingle(
  found: Findings,
  draft: Draft,
  key: string,
  node: LocatedNode,
  field: SingleField,
  path: string,
): void {
  if (field.kind === 'words') {
    const words = readWords(found, node, field, path);
    if (words !== undefined) draft.set(key, words);
  } else if (field.kind === 'numbers') {
    const { values, origin, problems } = readNumbers(node, field, path, found.context);
    found.blame(...problems);
    found.keep(draft, key, field, path, { value: values, origin });
  } else if (node.kind !== 'scalar') {
    found.fail(
      node,
      path,
      `is a ${node.kind === 'list' ? 'list' : 'group'}`,
      describeField(field),
      listMeant(node, key, field),
    );
  } else if (field.kind === 'number') {
    const { problem, ...read } = readNumber(node, field, path, found.context);
    if (problem !== undefined) found.blame(problem);
    else if ('quantity' in read) {
      const { quantity, origin, spreadSource } = read;
      found.keep(draft, key, field, path, { ...quantity, origin, spreadSource });
    }
  } else if (accepts(found, node, field, path)) {
    const { text, file, line, column } = node;
    found.keep(draft, key, field, path, { value: text, origin: { kind: 'given', file, line, column } });
  }
}

function accepts(
  found: Findings,
  node: LocatedScalar,
  field: ChoiceField | TextField | ReferenceField,
  path: string,
): boolean {
  const { text } = node;
  if (field.kind === 'text') {
    if (text.length <= LONGEST) return true;
    found.fail(node, path, `has ${text.length} characters`, `at most ${LONGEST}`);
    return false;
  }
  if (field.kind === 'choice') {
    if (field.choices.includes(text)) return true;
    found.fail(
      node,
      path,
      `unknown word "${text}"`,
      describeField(field),
      choiceMeant(text, field.choices) || nearest(text, field.choices),
    );
    return false;
  }
  return isCell(found, node, field, field.to, path);
}

/** The words of a list that is one; each that is wrong is told. */
function readWords(found: Findings, node: LocatedNode, field: WordsField, path: string): readonly string[] | undefined {
  const words = wordsIn(node);
  if (words.length === 0 || (node.kind === 'list' && words.length < node.items.length)) {
    found.fail(node, path, 'is no list of words', describeField(field));
    return undefined;
  }
  if (words.length > MOST_WORDS) {
    found.fail(node, path, `has ${words.length} words`, `at most ${MOST_WORDS}`);
    return undefined;
  }
  const { to } = field;
  if (to !== undefined) for (const word of words) isCell(found, word, field, to, path);
  return words.map(({ text }) => text);
}

function isCell(found: Findings, word: LocatedScalar, field: Field, to: readonly string[], path: string): boolean {
  const kind = found.context.cell(word.text);
  if (kind !== undefined && to.includes(kind)) return true;
  const message = kind === undefined ? `no cell is called "${word.text}"` : `"${word.text}" is a ${kind} cell`;
  found.fail(word, path, message, describeField(field), nearest(word.text, found.context.cells(to)));
  return false;
}
