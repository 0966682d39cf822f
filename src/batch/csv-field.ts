/** One field of a CSV file that holds words. */

const NUMBER = /^[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?$/u;
/** What a spreadsheet takes for a formula when the file is opened in it. */
const FORMULA = /^(?:\s*[=+\-@]|[\t\r\n])/u;

/**
 * The field as RFC 4180 writes it. Words that a spreadsheet would reckon out get an apostrophe in front, which makes them
 * words there; a number stays a number, whatever its sign.
 */
export function csvField(text: string): string {
  const words = FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/u.test(words) ? `"${words.replaceAll('"', '""')}"` : words;
}
