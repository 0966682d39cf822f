import { describe, expect, it } from 'vitest';
import { complaints, dash, fence, run } from '../fake.ts';

/** HTML and plain text of the prose before the first cell. */
const prose = (text: string, more = dash, front = '') => {
  const outcome = run(`${front}${text}\n\n${more}`);
  const block = outcome.blocks.find(each => each.kind === 'prose');
  return { html: block?.html.trim() ?? '', text: block?.text ?? '', complaints: complaints(outcome) };
};

describe('inline results', () => {
  it('stand in the unit that people read them in', () => {
    expect(prose('In `= dash.time_to_100_km_h`.').html).toBe('<p>In <output>8.3 s</output>.</p>');
    expect(prose('`= dash.top_speed`').html).toBe('<p><output>180 km/h</output></p>');
    expect(prose('`= dash.top_speed`', dash, '---\nunits: imperial\n---\n').text).toMatch(/^11[12] mph$/);
    expect(prose('`= dash.top_speed to m/s`').text).toBe('50 m/s');
    expect(prose('`=dash.top_speed * 2 s`').text).toBe('100 m');
    expect(prose('`= 2 kg - 5 kg`').text).toBe('−3 kg');
    expect(prose('`= dash.limiter`').text).toBe('motor speed');
    expect(prose('`= dash.top_speed > 1 m/s`').text).toBe('yes');
  });

  it('may use a value of a calc cell by its name alone, in headings, lists and tables too', () => {
    const sums = fence('calc sums', 'total = 2 kg');
    expect(prose('# `= total`', sums).html).toBe('<h1><output>2 kg</output></h1>');
    expect(prose('- a\n- `= sums.total`', sums).text).toBe('- a\n- 2 kg');
    expect(prose('| a | b |\n|---|---|\n| `= total` | x |', sums).html).toContain('<td><output>2 kg</output></td>');
  });

  it('leave other code alone', () => {
    for (const code of ['a = b', '==', '=> x', '=', 'x']) expect(prose(`\`${code}\``).html).toContain('<code>');
    expect(prose('    = dash.top_speed').html).toContain('<pre><code>');
  });

  it('mark what fails in place, with file, line and column', () => {
    const { html, complaints } = prose(
      'Some\nlines, `= dash.time` and `=  1 kg + 1 s`\n\n| a |\n|---|\n| `= dash.time` |',
    );
    expect(complaints.map(text => text.split(': ')[0])).toEqual(['2:11', '2:30', '6:6']);
    expect(html).toContain('<output class="problem">⚠ line 2: dash, a dummy cell, has no &quot;time&quot;</output>');
  });

  it('say why a value is missing', () => {
    expect(prose('`= dash.time_to_160_km_h`').complaints).toEqual([
      '1:4: dash.time_to_160_km_h has no value: the car never gets there',
    ]);
    expect(prose('`= 2 * bad.top_speed`', fence('yaml dummy bad', 'mass: 1 s')).complaints[0]).toBe(
      '1:8: needs bad, which failed (line 3)',
    );
    expect(prose('`= dash`').complaints[0]).toMatch(
      /^1:4: dash is a dummy cell, not a value; expected one of its values/,
    );
    const two = fence('calc one', 'x = 1') + fence('calc two', 'x = 2');
    expect(prose('`= x`', two).complaints).toEqual(['1:4: "x" is defined in 2 cells; expected one.x or two.x']);
  });

  it('find the second of two equal ones', () => {
    expect(prose('`= nope` then `= nope`').complaints.map(text => text.slice(0, 5))).toEqual(['1:4: ', '1:18:']);
  });
});

describe('prose', () => {
  it('escapes raw HTML, and what a formula brings in', () => {
    expect(prose('<script>alert(1)</script> <b onclick=x>').html).not.toMatch(/<(?:script|b)/);
    expect(prose('`= "<img src=x>"`').html).toBe('<p><output>&lt;img src=x&gt;</output></p>');
    expect(prose('`= <img src=x onerror=alert(1)>`').html).not.toContain('<img');
  });

  it('links nowhere that could run, and loads no pictures', () => {
    expect(prose('[a](javascript:alert(1)) [b](data:text/html,x) [c](vbscript:x)').html).not.toContain('<a');
    expect(prose('[a](https://example.org)').html).toContain('rel="noopener noreferrer"');
    expect(prose('![the car](https://example.org/x.png) ![b](x.png)').html).toBe('<p>[the car] [b]</p>');
    expect(prose('![dot](data:image/png;base64,AAAA)').html).toContain('<img');
    expect(prose('![dot](data:image/svg+xml;base64,AAAA)').html).not.toContain('<img');
  });

  it('reads as text on a terminal', () => {
    const text =
      '# Head\n\nOne *two*\nthree `code`.\n\n- a\n- b\n\n> quoted\n\n```\ncode\n```\n\nend [link](https://example.org)';
    expect(prose(text).text).toBe('Head\n\nOne two three code.\n\n- a\n- b\n\nquoted\n\ncode\n\nend link');
  });
});
