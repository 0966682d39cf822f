/** What a notebook from a stranger can do to the machine it is opened on. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

describe('a terminal', () => {
  const notebook =
    'a \u001b]0;mine\u0007 \u001b[31m `= \u001b[2J\u202e + 1`\n\n```yaml car x\n\u001b[31mmass: 1 kg\n```\n';

  it.each(['check', 'run'])('is not coloured, cleared or named by what %s says of a notebook', verb => {
    const { code, out, err } = command({ 'a.md': notebook }, [verb, 'a.md']);
    expect(code).toBe(1);
    expect(out + err).toContain('a.md:4');
    expect(`${out}${err}`.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
  });

  it('is not coloured by the name of a file that is not there', () => {
    const { code, err } = command({}, ['check', 'x\u001b[31m.md']);
    expect(code).toBe(2);
    expect(err.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });
});
