/** A notebook as a tree, which can be written down, read back by nobody, and made smaller piece by piece. */

export type Value = string | Entries | readonly Entries[];
export type Entries = readonly (readonly [key: string, value: Value])[];

export interface PageCell {
  /** Word of the fence: `yaml launch`, `calc`. */
  readonly head: string;
  readonly name: string;
  /** Entries of a YAML cell, lines of a formula or a check. */
  readonly body: Entries | readonly string[];
}

export interface Page {
  /** `samples: 0` and the like. */
  readonly front: Entries;
  readonly cells: readonly PageCell[];
  /** Prose behind the cells, with quoted results. */
  readonly prose: readonly string[];
}

export function isLines(body: PageCell['body']): body is readonly string[] {
  return typeof body[0] === 'string';
}

/** The notebook as Markdown. */
export function written({ front, cells, prose }: Page): string {
  const head = front.length === 0 ? '' : `---\n${lines(front, '').join('\n')}\n---\n\n`;
  const fences = cells.map(({ head: fence, name, body }) => {
    const text = isLines(body) ? body : lines(body, '');
    return `\`\`\`${`${fence} ${name}`.trim()}\n${text.join('\n')}\n\`\`\`\n`;
  });
  return `${head}${[...fences, ...prose.map(line => `${line}\n`)].join('\n')}`;
}

function lines(entries: Entries, indent: string): string[] {
  return entries.flatMap(([key, value]) => {
    if (typeof value === 'string') return [`${indent}${key}: ${value}`];
    if (isList(value)) return [`${indent}${key}:`, ...value.flatMap(item => listed(item, `${indent}  `))];
    return [`${indent}${key}:`, ...lines(value, `${indent}  `)];
  });
}

export function isList(value: readonly Entries[] | Entries): value is readonly Entries[] {
  const [first] = value;
  return Array.isArray(first) && (first.length === 0 || Array.isArray(first[0]));
}

function listed(item: Entries, indent: string): string[] {
  return lines(item, `${indent}  `).map((line, k) => (k === 0 ? `${indent}- ${line.trimStart()}` : line));
}
