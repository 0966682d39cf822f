/** A strict reading of an HTML page: enough to find what is not closed, not nested, or doubled. For tests only. */

const VOID = new Set(['meta', 'link', 'br', 'hr', 'img', 'wbr', 'input']);

/** What is wrong with the page, one line each; empty when it is well-formed. */
export function faults(page: string): readonly string[] {
  const found: string[] = [];
  const open: string[] = [];
  const body = page.replace(/^<!DOCTYPE html>/, '').replace(/<style>[^<]*<\/style>/, '');
  const tag = /<(\/?)([a-zA-Z][\w:-]*)((?:\s+[\w:-]+(?:="[^"<>]*")?)*)\s*(\/?)>|<|&(?!(?:[a-z]+|#\d+|#x[\da-f]+);)/g;
  for (const match of body.matchAll(tag)) {
    const [whole, close, name = '', attributes = '', self] = match;
    const at = body.slice(match.index, match.index + 40).replaceAll('\n', ' ');
    if (whole === '<' || whole === '&') found.push(`stray ${whole} at ${at}`);
    else if (close === '/') {
      const last = open.pop();
      if (last !== name) found.push(`</${name}> closes <${last ?? 'nothing'}> at ${at}`);
    } else if (!VOID.has(name) && self !== '/') open.push(name);
    const names = [...attributes.replaceAll(/"[^"]*"/g, '""').matchAll(/\s([\w:-]+)(?==|\s|$)/g)].map(
      attribute => attribute[1],
    );
    if (new Set(names).size !== names.length) found.push(`an attribute twice at ${at}`);
  }
  if (open.length > 0) found.push(`not closed: ${open.join(' ')}`);
  const ids = [...page.matchAll(/\sid="([^"]*)"/g)].map(match => match[1]);
  ids.filter((id, i) => ids.indexOf(id) !== i).forEach(id => found.push(`id ${id ?? ''} twice`));
  for (const [, target = ''] of page.matchAll(/\shref="#([^"]*)"/g))
    if (!ids.includes(target)) found.push(`no id ${target}`);
  for (const [, target = ''] of page.matchAll(/aria-labelledby="([^"]*)"/g))
    if (!ids.includes(target)) found.push(`no id ${target}`);
  return found;
}

/** Levels of the headings in their order. */
export function headings(page: string): readonly number[] {
  return [...page.matchAll(/<h([1-6])[\s>]/g)].map(match => Number(match[1]));
}
