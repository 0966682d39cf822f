/** Text of a stranger's notebook for a terminal. */

/** A line without anything that would move the cursor or colour the terminal; each such sign is a blank. */
export function harmless(line: string): string {
  return line.replace(/[\p{Cc}\p{Cs}\p{Bidi_Control}\u202f]/gu, ' ');
}
