/** Markdown as its reader sees it, without marks. */
import type { Token } from 'markdown-it';

/** Text of inline tokens. */
export function plainText(tokens: readonly Token[]): string {
  return tokens
    .map(token => {
      if (token.type === 'softbreak' || token.type === 'hardbreak') return ' ';
      return token.children !== null && token.children.length > 0 ? plainText(token.children) : token.content;
    })
    .join('');
}
