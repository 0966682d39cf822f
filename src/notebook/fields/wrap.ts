/** Text in lines of a terminal, all indented. */
export function wrap(text: string, width: number, indent: number): string {
  const room = Math.max(20, width - indent);
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= room) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map(line => ' '.repeat(indent) + line).join('\n');
}
