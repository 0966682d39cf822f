/** Expressions of plots: arithmetic, comparisons and a few functions over the columns of a row. */

/** Functions that expressions may call: numbers and texts in, one number or text out. */
const FUNCTIONS = new Set(
  'abs acos asin atan atan2 ceil cos exp floor format isFinite isNaN log max min pow round sin sqrt tan'.split(' '),
);

/** What an expression may be made of, in the order of the groups: a column, a function, and the rest. */
const TOKEN = new RegExp(
  [
    String.raw`\s+`,
    String.raw`datum\.([A-Za-z_]\w*)(?![\w.]|\s*[([])`,
    String.raw`([A-Za-z_]\w*)(?=\s*\()`,
    String.raw`\b(?:true|false|null)\b`,
    String.raw`\d+(?:\.\d+)?(?:[eE][-+]?\d+)?`,
    String.raw`'[^'\\]*'|"[^"\\]*"`,
    String.raw`&&|\|\||[=!]==?|[<>]=?|[-+*/%!?:(),]`,
  ].join('|'),
  'y',
);

/** Columns that an expression uses. Throws for anything but arithmetic, comparisons and the functions above. */
export function expressionColumns(source: string): string[] {
  const columns: string[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < source.length) {
    const at = TOKEN.lastIndex;
    const [found, column, name] = TOKEN.exec(source) ?? [];
    if (found === undefined) throw refused(source.slice(at, at + 12));
    if (name !== undefined && !FUNCTIONS.has(name)) throw refused(name);
    if (column !== undefined) columns.push(column);
  }
  return columns;
}

function refused(text: string): Error {
  return new Error(`"${text}" is not allowed in an expression`);
}
